using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;

namespace Shimwright.Storage.Database;

/// <summary>Gives rows that were written before checksums the one that they lack.</summary>
internal static class SumFill
{
    private const int AtATime = 50;

    public static async Task RunAsync(BenchContext context, CancellationToken cancel)
    {
        await TableAsync(context, context.Cards, c => c.Id, cancel);
        await TableAsync(context, context.Engines, e => e.Id, cancel);
        await TableAsync(context, context.Jobs, j => j.Id, cancel);
        await TableAsync(context, context.Facts, f => f.JobId, cancel);
        await TableAsync(context, context.ShimMoves, m => m.Number, cancel);
        await TableAsync(context, context.Settings, s => s.Version, cancel);
        await TableAsync(context, context.Feels, f => f.PersonId, cancel);
        await TableAsync(context, context.Pictures, p => p.Id, cancel);
    }

    /// <summary>Which they are is asked once, and they are found by their keys: to look for the next ones each time would go through those that are done again and again.</summary>
    private static async Task TableAsync<T, TKey>(BenchContext context, IQueryable<T> rows, Expression<Func<T, TKey>> key, CancellationToken cancel)
        where T : class, ISummed
    {
        IQueryable<T> without = rows.Where(r => r.Sum == null);
        foreach (TKey[] keys in (await without.Select(key).Distinct().ToListAsync(cancel)).Chunk(AtATime))
        {
            Expression<Func<TKey, bool>> isOne = k => keys.Contains(k);
            var isHere = Expression.Lambda<Func<T, bool>>(Expression.Invoke(isOne, key.Body), key.Parameters);
            foreach (T row in await without.Where(isHere).ToListAsync(cancel))
            {
                // Saving sets the checksum of whatever has changed.
                row.Sum = 0;
            }

            await context.SaveChangesAsync(cancel);
            context.ChangeTracker.Clear();
        }
    }
}
