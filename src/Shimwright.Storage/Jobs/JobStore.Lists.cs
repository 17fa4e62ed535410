using Microsoft.EntityFrameworkCore;
using Shimwright.Jobs.Fitting;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Jobs;

/// <content>Jobs in lists.</content>
public sealed partial class JobStore
{
    /// <summary>Open jobs, those changed last first.</summary>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The jobs.</returns>
    public Task<IReadOnlyList<JobSummary>> OpenAsync(int skip, int take, CancellationToken cancel = default) =>
        ListAsync(jobs => jobs.Where(j => j.ClosedAt == null).OrderByDescending(j => j.ChangedAt).ThenBy(j => j.Id).Skip(skip).Take(take), cancel);

    /// <summary>Closed jobs, those closed last first.</summary>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The jobs.</returns>
    public Task<IReadOnlyList<JobSummary>> ClosedAsync(int skip, int take, CancellationToken cancel = default) =>
        ListAsync(jobs => jobs.Where(j => j.ClosedAt != null).OrderByDescending(j => j.ClosedAt).ThenBy(j => j.Id).Skip(skip).Take(take), cancel);

    /// <summary>The jobs of an engine, the newest first.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The jobs.</returns>
    public Task<IReadOnlyList<JobSummary>> OfEngineAsync(Guid engineId, CancellationToken cancel = default) =>
        ListAsync(jobs => jobs.Where(j => j.EngineId == engineId).OrderByDescending(j => j.StartedAt).ThenBy(j => j.Id), cancel);

    /// <summary>The second round of a job, the one started last where there are several; null where there is none.</summary>
    /// <param name="job">The job that was not right yet.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The round.</returns>
    public async Task<JobSummary?> SecondRoundOfAsync(Guid job, CancellationToken cancel = default) =>
        await ListAsync(jobs => jobs.Where(j => j.FollowsId == job).OrderByDescending(j => j.StartedAt).ThenBy(j => j.Id).Take(1), cancel) is [var round, ..] ? round : null;

    /// <summary>How many jobs are open.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The number.</returns>
    public async Task<int> CountOpenAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await context.Jobs.CountAsync(j => j.ClosedAt == null, cancel);
    }

    private async Task<IReadOnlyList<JobSummary>> ListAsync(Func<IQueryable<JobRow>, IQueryable<JobRow>> which, CancellationToken cancel)
    {
        await using BenchContext context = _open();
        var rows = await which(context.Jobs.AsNoTracking())
            .Select(j => new { j.Id, j.EngineId, j.Engine.Name, j.Stage, j.Clock, j.StartedAt, j.ChangedAt, j.ClosedAt }).ToListAsync(cancel);
        return [.. rows.Select(j => new JobSummary(j.Id, j.EngineId, j.Name, (JobStage)j.Stage, j.Clock, j.StartedAt, j.ChangedAt, j.ClosedAt))];
    }
}
