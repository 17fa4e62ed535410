using Shimwright.Bench.Drawer;
using Shimwright.Bench.Marks;

namespace Shimwright.Bench.InMemory;

/// <summary>The marks of a bench in memory.</summary>
internal sealed class MemoryMarks(MemoryState state) : IMarks
{
    /// <inheritdoc/>
    public Task<IReadOnlyList<JobMark>> ListAsync(CancellationToken cancel = default) => state.DoAsync(
        IReadOnlyList<JobMark> () =>
        {
            IEnumerable<JobMark> ofJobs = state.Jobs.Values.Where(j => j.MayHaveMarks && j.Row.DiscardedAt is null).OrderByDescending(j => j.Row.StartedAt).ThenBy(j => j.Row.Id).Take(IMarks.MostJobs)
                .SelectMany(j => MarkRules.OfJob(j.Row.Id, state.Engines[j.Row.EngineId].Row.Name, j.Row.StartedAt, j.Sheet));
            IEnumerable<JobMark> inDrawer = MarkRules.InDrawer(
                state.Ledger.Entries.Where(e => e.Reason == ShimReason.Measured && !state.Ledger.IsUndone(e.Number)));
            return [.. ofJobs.Concat(inDrawer).OrderByDescending(m => m.At)];
        },
        cancel);
}
