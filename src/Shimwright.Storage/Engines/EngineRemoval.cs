using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;

namespace Shimwright.Storage.Engines;

/// <summary>Takes an engine away for good. The tables let facts go only of jobs of which it is written down that they were removed.</summary>
internal static class EngineRemoval
{
    public static async Task<IReadOnlyList<JobProblem>> RunAsync(Func<BenchContext> open, Guid id, string typed, DateTime now, CancellationToken cancel)
    {
        await using BenchContext context = open();
        await context.Database.OpenConnectionAsync(cancel);
        if (context.Database.IsSqlite())
        {
            // What is taken away is overwritten, not only left out.
            await context.Database.ExecuteSqlRawAsync("PRAGMA secure_delete=ON", cancel);
        }

        return await context.InTransactionAsync(transaction => RemoveAsync(context, transaction, (id, typed), now, cancel), cancel);
    }

    private static async Task<IReadOnlyList<JobProblem>> RemoveAsync(
        BenchContext context, IDbContextTransaction transaction, (Guid Id, string Typed) asked, DateTime now, CancellationToken cancel)
    {
        (Guid id, string typed) = asked;
        // Jobs that are being added to are waited for; none is added to afterwards. The drawer comes after them, as for everybody, so that nobody waits for each other.
        await context.Jobs.Where(j => j.EngineId == id).ExecuteUpdateAsync(s => s.SetProperty(j => j.Last, j => j.Last), cancel);
        await DrawerLedger.HoldAsync(context, cancel);
        var engine = await context.Engines.AsNoTracking().Where(e => e.Id == id).Select(e => new { e.Name, e.CardId }).FirstOrDefaultAsync(cancel);
        IReadOnlyList<JobProblem> problems = RemovalRules.ProblemsOf(engine?.Name, typed);
        if (problems.Count > 0)
        {
            return problems;
        }

        Guid[] jobs = [.. await context.Jobs.Where(j => j.EngineId == id).Select(j => j.Id).ToListAsync(cancel)];
        context.RemovedJobs.AddRange(jobs.Select(j => new RemovedJobRow { JobId = j, At = now }));
        await context.SaveChangesAsync(cancel);
        foreach (ShimMoveRow move in await context.ShimMoves.Where(m => m.JobId != null && jobs.Contains(m.JobId.Value)).ToListAsync(cancel))
        {
            move.JobId = null;
        }

        await context.SaveChangesAsync(cancel);
        await context.ShimPromises.Where(p => jobs.Contains(p.JobId)).ExecuteDeleteAsync(cancel);
        await context.Pictures.Where(p => p.JobId != null && jobs.Contains(p.JobId.Value)).ExecuteDeleteAsync(cancel);
        await context.Facts.Where(f => jobs.Contains(f.JobId)).ExecuteDeleteAsync(cancel);
        await context.Jobs.Where(j => j.EngineId == id).ExecuteDeleteAsync(cancel);
        await context.Engines.Where(e => e.Id == id).ExecuteDeleteAsync(cancel);
        await context.Cards.Where(c => c.Id == engine!.CardId && !context.Engines.Any(e => e.CardId == c.Id)).ExecuteDeleteAsync(cancel);
        await transaction.CommitAsync(cancel);
        return [];
    }
}
