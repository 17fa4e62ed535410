using Microsoft.EntityFrameworkCore;

namespace Shimwright.Storage.Database;

/// <summary>Gives rows that were written before checksums the one that they lack.</summary>
internal static class SumFill
{
    private const int AtATime = 500;

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

    private static async Task TableAsync<T, TKey>(BenchContext context, IQueryable<T> rows, System.Linq.Expressions.Expression<Func<T, TKey>> key, CancellationToken cancel)
        where T : class, ISummed
    {
        while (await rows.Where(r => r.Sum == null).OrderBy(key).Take(AtATime).ToListAsync(cancel) is { Count: > 0 } some)
        {
            foreach (T row in some)
            {
                // Saving sets the checksum of whatever has changed.
                row.Sum = 0;
            }

            await context.SaveChangesAsync(cancel);
            context.ChangeTracker.Clear();
        }
    }
}
