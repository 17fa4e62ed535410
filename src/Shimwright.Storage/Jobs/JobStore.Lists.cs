using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Jobs;

/// <content>Jobs in lists.</content>
internal sealed partial class JobStore
{
    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> OpenAsync(int skip, int take, CancellationToken cancel = default) =>
        ListAsync(jobs => Open(jobs).OrderByDescending(j => j.ChangedAt).ThenBy(j => j.Id).Skip(skip).Take(take), cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> ClosedAsync(int skip, int take, CancellationToken cancel = default) =>
        ListAsync(jobs => jobs.Where(j => j.ClosedAt != null && j.DiscardedAt == null).OrderByDescending(j => j.ClosedAt).ThenBy(j => j.Id).Skip(skip).Take(take), cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> OfEngineAsync(Guid engineId, CancellationToken cancel = default) =>
        ListAsync(jobs => jobs.Where(j => j.EngineId == engineId).OrderByDescending(j => j.StartedAt).ThenBy(j => j.Id), cancel);

    /// <inheritdoc/>
    public async Task<JobSummary?> SecondRoundOfAsync(Guid job, CancellationToken cancel = default) =>
        // A round is of the same engine: along the index on it, not through all jobs.
        await ListAsync(
            jobs => jobs.Where(j => jobs.Where(f => f.Id == job).Select(f => f.EngineId).Contains(j.EngineId) && j.FollowsId == job)
                .OrderByDescending(j => j.StartedAt).ThenBy(j => j.Id).Take(1),
            cancel) is [var round, ..] ? round : null;

    /// <inheritdoc/>
    public async Task<int> CountOpenAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await Open(context.Jobs).CountAsync(cancel);
    }

    private static IQueryable<JobRow> Open(IQueryable<JobRow> jobs) => jobs.Where(j => j.ClosedAt == null && j.DiscardedAt == null && j.Engine.RetiredAt == null);

    private async Task<IReadOnlyList<JobSummary>> ListAsync(Func<IQueryable<JobRow>, IQueryable<JobRow>> which, CancellationToken cancel)
    {
        await using BenchContext context = _open();
        var rows = await which(context.Jobs.AsNoTracking())
            .Select(j => new { j.Id, j.Number, j.EngineId, j.Engine.Name, j.Stage, j.Clock, j.StartedAt, j.ChangedAt, j.ClosedAt, j.DiscardedAt, Nothing = j.Record != null && j.Record.Contains(JobRecord.Passed) && !j.Record.Contains(JobRecord.HasChange) }).ToListAsync(cancel);
        return [.. rows.Select(j => new JobSummary(j.Id, j.Number, j.EngineId, j.Name, (JobStage)j.Stage, j.Clock, j.StartedAt, j.ChangedAt, j.ClosedAt, j.DiscardedAt, j.Nothing))];
    }
}
