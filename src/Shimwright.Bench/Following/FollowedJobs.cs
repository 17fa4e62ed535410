using Shimwright.Bench.InStep;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;

namespace Shimwright.Bench.Following;

/// <summary>Jobs, what is added to them remembered.</summary>
internal sealed class FollowedJobs(Follower follower, IJobs inner) : IJobs
{
    /// <inheritdoc/>
    public Task<Guid> StartAsync(Guid engineId, JobSetup setup, IReadOnlyList<JobFact> facts, Guid action, string device, CancellationToken cancel = default) =>
        StartAsync(engineId, setup, facts, JobPast.InFile, action, device, cancel);

    /// <inheritdoc/>
    public Task<Guid> StartAsync(
        Guid engineId, JobSetup setup, IReadOnlyList<JobFact> facts, JobPast past, Guid action, string device, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(facts);
        return follower.DoAsync(
            at => Task.FromResult<Deed?>(facts.All(FactJson.CanBeKept) ? new JobStarted(action, at, engineId, setup.Json, past, DeedFacts.Sent(facts, null)) : null),
            () => inner.StartAsync(engineId, setup, facts, past, action, device, cancel));
    }

    /// <inheritdoc/>
    public Task<StoredJob?> FindAsync(Guid id, CancellationToken cancel = default) => inner.FindAsync(id, cancel);

    /// <inheritdoc/>
    public Task<AddResult> AddAsync(Guid id, Addition addition, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(addition);
        Addition seen = addition with { Seen = follower.SeenHere(id, addition.Seen) };
        return follower.DoAsync(
            async at => addition.Facts.All(FactJson.CanBeKept) && await inner.FindAsync(id, cancel) is { } job
                ? new FactsAdded(addition.Action, at, id, follower.SeenThere(id, seen.Seen), DeedFacts.Sent(addition.Facts, job.Sheet))
                : null,
            () => inner.AddAsync(id, seen, cancel));
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> OpenAsync(int skip, int take, CancellationToken cancel = default) => inner.OpenAsync(skip, take, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> ClosedAsync(int skip, int take, CancellationToken cancel = default) => inner.ClosedAsync(skip, take, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> OfEngineAsync(Guid engineId, CancellationToken cancel = default) => inner.OfEngineAsync(engineId, cancel);

    /// <inheritdoc/>
    public Task<JobSummary?> SecondRoundOfAsync(Guid job, CancellationToken cancel = default) => inner.SecondRoundOfAsync(job, cancel);

    /// <inheritdoc/>
    public Task<int> CountOpenAsync(CancellationToken cancel = default) => inner.CountOpenAsync(cancel);
}
