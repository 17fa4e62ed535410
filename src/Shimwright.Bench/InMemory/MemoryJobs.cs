using Shimwright.Bench.Adding;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.InMemory;

/// <summary>The jobs of a bench in memory.</summary>
internal sealed class MemoryJobs(MemoryState state) : IJobs
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
        return state.DoAsync(
            () =>
            {
                if (state.JobsByAction.TryGetValue(action, out MemoryJob? before))
                {
                    return before.Row.Id;
                }

                DateTime now = state.Now;
                // The same id on every bench that is told of it.
                Guid id = action;
                JobSheet sheet = JobBeginning.Of(setup, facts, action, device, now);
                if (!state.Engines.ContainsKey(engineId))
                {
                    throw JobBeginning.NoEngine(engineId);
                }

                state.Change(new()
                {
                    Jobs = [new(id, engineId, setup.Json, action, past, JobStages.Of(sheet), sheet.Check.Clock, now, now, null, null) { Number = state.LastJob + 1 }],
                    Counts = [new(KeptCount.Jobs, state.LastJob + 1)],
                    Facts = [.. sheet.Entries.Select(e => RowOf(id, e))],
                });
                return id;
            },
            cancel);
    }

    /// <inheritdoc/>
    public Task<StoredJob?> FindAsync(Guid id, CancellationToken cancel = default) => state.DoAsync(
        () => state.Jobs.TryGetValue(id, out MemoryJob? job)
            ? new StoredJob(SummaryOf(job), WithShop(job), job.Row.Record is { } record ? JobRecord.Read(record) : null, job.Row.Past.Follows)
            : null,
        cancel);

    /// <inheritdoc/>
    public Task<AddResult> AddAsync(Guid id, Addition addition, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(addition);
        AdditionRules.Check(addition);
        return state.DoAsync(() => state.Jobs.TryGetValue(id, out MemoryJob? job) ? Add(job, addition) : new(AddOutcome.NoSuchJob, [], []), cancel);
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> OpenAsync(int skip, int take, CancellationToken cancel = default) =>
        ListAsync(IsOpen, j => j.ChangedAt, skip, take, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> ClosedAsync(int skip, int take, CancellationToken cancel = default) =>
        ListAsync(j => j is { ClosedAt: not null, DiscardedAt: null }, j => j.ClosedAt!.Value, skip, take, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobSummary>> OfEngineAsync(Guid engineId, CancellationToken cancel = default) =>
        ListAsync(j => j.EngineId == engineId, j => j.StartedAt, 0, int.MaxValue, cancel);

    /// <inheritdoc/>
    public async Task<JobSummary?> SecondRoundOfAsync(Guid job, CancellationToken cancel = default) =>
        await ListAsync(j => j.Past.Follows == job, j => j.StartedAt, 0, 1, cancel) is [var round, ..] ? round : null;

    /// <inheritdoc/>
    public Task<int> CountOpenAsync(CancellationToken cancel = default) => state.DoAsync(() => state.Jobs.Values.Count(j => IsOpen(j.Row)), cancel);

    private bool IsOpen(KeptJob job) => job is { ClosedAt: null, DiscardedAt: null } && state.Engines[job.EngineId].Row.RetiredAt is null;

    private AddResult Add(MemoryJob job, Addition addition)
    {
        DateTime now = state.Now;
        JobDrawer? drawer = JobShims.Concern(addition.Facts) ? state.Ledger.For(job.Row.Id, DiameterOf(job)) : null;
        var made = JobAddition.Of(new(job.Sheet, job.Row.Action, drawer), addition, now);
        if (made.Result.Outcome != AddOutcome.Saved)
        {
            return made.Result;
        }

        KeptJob row = job.Row with { Stage = JobStages.Of(made.After), Clock = made.After.Check.Clock, ChangedAt = now, DiscardedAt = made.After.IsDiscarded ? job.Row.DiscardedAt ?? now : null };
        row = made.After.Closing is null ? row with { ClosedAt = null, Record = null }
            : made.Record is { } record ? row with { ClosedAt = now, Record = record.ToJson() }
            : row;
        KeptEngine engine = state.Engines[row.EngineId].Row;
        state.Change(new()
        {
            Jobs = [row],
            Facts = [.. made.Entries.Select(e => RowOf(row.Id, e))],
            Engines = job.Row.ClosedAt is null && row.ClosedAt is null ? [] : [engine with { Changes = engine.Changes + 1 }],
            Ledger = made.Shims is null ? [] : [.. made.Shims.Entries.Select((e, i) => e.Numbered(state.Ledger.Last + 1 + i, row.Id, new(addition.Action, addition.Device), now))],
            Promises = made.Shims is null ? [] : [new(row.Id, made.Shims.Promises)],
        });
        return made.Result;
    }

    private JobSheet WithShop(MemoryJob job)
    {
        JobSheet sheet = job.Sheet;
        return DiameterOf(job) is not { } diameter ? sheet
            // With a plan accepted nothing rests on the drawer as it is now.
            : sheet.WithShop(sheet.Plan is null ? state.Ledger.Counts(job.Row.Id).FreeOfDiameter(diameter) : []);
    }

    private int? DiameterOf(MemoryJob job) => JobShims.DiameterOf(job.Sheet, state.Cards[state.Engines[job.Row.EngineId].Row.CardId].Details);

    private Task<IReadOnlyList<JobSummary>> ListAsync(Func<KeptJob, bool> which, Func<KeptJob, DateTime> newest, int skip, int take, CancellationToken cancel) =>
        state.DoAsync(
            IReadOnlyList<JobSummary> () =>
                [.. state.Jobs.Values.Where(j => which(j.Row)).OrderByDescending(j => newest(j.Row)).ThenBy(j => j.Row.Id).Skip(skip).Take(take).Select(SummaryOf)],
            cancel);

    private JobSummary SummaryOf(MemoryJob job) => job.Summary(state.Engines[job.Row.EngineId].Row.Name);

    private static KeptFact RowOf(Guid job, JobEntry entry) => new(job, entry.Number, entry.Action, entry.Device, entry.At, FactJson.Write(entry.Fact));
}
