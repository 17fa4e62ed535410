using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Shimwright.Bench.Adding;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;
using Shimwright.Storage.Engines;

namespace Shimwright.Storage.Jobs;

/// <summary>Jobs, each with a sheet of facts that only grows.</summary>
internal sealed partial class JobStore : IJobs
{
    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;
    private readonly SheetReader _sheets;
    private readonly JobNews _news;

    internal JobStore(Func<BenchContext> open, SheetReader sheets, JobNews news, TimeProvider time)
    {
        _news = news;
        _open = open;
        _sheets = sheets;
        _time = time;
    }

    /// <inheritdoc/>
    public Task<Guid> StartAsync(
        Guid engineId, JobSetup setup, IReadOnlyList<JobFact> facts, Guid action, string device, CancellationToken cancel = default) =>
        StartAsync(engineId, setup, facts, JobPast.InFile, action, device, cancel);

    /// <inheritdoc/>
    public async Task<Guid> StartAsync(
        Guid engineId, JobSetup setup, IReadOnlyList<JobFact> facts, JobPast past, Guid action, string device, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(facts);
        await using BenchContext context = _open();
        if (await StartedBy(context, action, cancel) is { } before)
        {
            return before;
        }

        DateTime now = Now();
        // The same id on every bench that is told of it.
        Guid id = action;
        JobSheet sheet = JobBeginning.Of(setup, facts, action, device, now);
        return await context.InTransactionAsync(
            async transaction =>
            {
                int number = await NextNumberAsync(context, cancel);
                context.Jobs.Add(new JobRow
                {
                    Id = id,
                    Number = number,
                    EngineId = engineId,
                    Setup = setup.Json,
                    Action = action,
                    StartedAt = now,
                    ChangedAt = now,
                    Stage = (int)JobStages.Of(sheet),
                    Last = sheet.Last,
                    Clock = sheet.Check.Clock,
                    Past = (int)past.Origin,
                    FollowsId = past.Follows,
                });
                context.Facts.AddRange(sheet.Entries.Select(e => RowOf(id, e)));
                try
                {
                    await context.SaveChangesAsync(cancel);
                    await transaction.CommitAsync(cancel);
                    return id;
                }
                catch (DbUpdateException)
                {
                    await transaction.RollbackAsync(CancellationToken.None);
                    await using BenchContext again = _open();
                    if (await StartedBy(again, action, cancel) is { } meanwhile)
                    {
                        return meanwhile;
                    }

                    if (!await again.Engines.AnyAsync(e => e.Id == engineId, cancel))
                    {
                        throw JobBeginning.NoEngine(engineId);
                    }

                    throw;
                }
            },
            cancel);
    }

    /// <inheritdoc/>
    public async Task<StoredJob?> FindAsync(Guid id, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        // Two questions, one answer: the row says which fact is the last, and facts up to there never change.
        JobRow? row = await context.Jobs.AsNoTracking().Include(j => j.Engine).FirstOrDefaultAsync(j => j.Id == id, cancel);
        if (row is null)
        {
            return null;
        }

        JobSheet sheet = await DrawerOfJob.WithShopAsync(context, row, await _sheets.OfAsync(context, row, cancel), cancel);
        return new(SummaryOf(row, row.Engine.Name), sheet, row.Record is null ? null : JobRecord.Read(row.Record), row.FollowsId);
    }

    /// <inheritdoc/>
    public async Task<AddResult> AddAsync(Guid id, Addition addition, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(addition);
        AdditionRules.Check(addition);
        await using BenchContext context = _open();
        return await context.InTransactionAsync(transaction => AddAsync(context, transaction, id, addition, cancel), cancel);
    }

    private async Task<AddResult> AddAsync(BenchContext context, IDbContextTransaction transaction, Guid id, Addition addition, CancellationToken cancel)
    {
        // Whoever is about to add holds the job's row first: others wait here, and then see what was added before them.
        if (await context.Jobs.Where(j => j.Id == id).ExecuteUpdateAsync(s => s.SetProperty(j => j.Last, j => j.Last), cancel) == 0)
        {
            return new(AddOutcome.NoSuchJob, [], []);
        }

        JobRow row = await context.Jobs.FirstAsync(j => j.Id == id, cancel);
        JobSheet sheet = await _sheets.OfAsync(context, row, cancel);
        (DrawerLedger Ledger, JobDrawer Drawer)? held = JobShims.Concern(addition.Facts) ? await DrawerOfJob.HoldAsync(context, row, sheet, cancel) : null;
        DateTime now = Now();
        var made = JobAddition.Of(new(sheet, row.Action, held?.Drawer), addition, now);
        if (made.Result.Outcome != AddOutcome.Saved)
        {
            return made.Result;
        }

        if (made.Shims is { } shims)
        {
            held!.Value.Ledger.Write(shims.Entries, id, new(addition.Action, addition.Device), now);
            await DrawerOfJob.PromiseAsync(context, id, shims.Promises, cancel);
        }

        bool wasClosed = row.ClosedAt is not null;
        Keep(context, row, made, now);
        await context.SaveChangesAsync(cancel);
        if (wasClosed || row.ClosedAt is not null)
        {
            await EngineChanges.NoteAsync(context, row.EngineId, cancel);
        }

        await JobNews.TellServersAsync(context, id, made.After.Last, cancel);
        await transaction.CommitAsync(cancel);
        _news.Tell(id, made.After.Last);
        return made.Result;
    }

    private static void Keep(BenchContext context, JobRow row, JobAddition made, DateTime now)
    {
        context.Facts.AddRange(made.Entries.Select(e => RowOf(row.Id, e)));
        row.Last = made.After.Last;
        row.Stage = (int)JobStages.Of(made.After);
        row.Clock = made.After.Check.Clock;
        row.ChangedAt = now;
        row.DiscardedAt = made.After.IsDiscarded ? row.DiscardedAt ?? now : null;
        if (made.After.Closing is null)
        {
            row.ClosedAt = null;
            row.Record = null;
        }
        else if (made.Record is { } record)
        {
            row.ClosedAt = now;
            row.Record = record.ToJson();
        }
    }

    /// <summary>The next number; whoever counts holds the count until the job is kept, so that none is given twice.</summary>
    private static async Task<int> NextNumberAsync(BenchContext context, CancellationToken cancel)
    {
        await context.Counts.Where(c => c.Name == KeptCount.Jobs).ExecuteUpdateAsync(s => s.SetProperty(c => c.Last, c => c.Last + 1), cancel);
        return await context.Counts.AsNoTracking().Where(c => c.Name == KeptCount.Jobs).Select(c => c.Last).SingleAsync(cancel);
    }

    private static async Task<Guid?> StartedBy(BenchContext context, Guid action, CancellationToken cancel) =>
        (await context.Jobs.AsNoTracking().Where(j => j.Action == action).Select(j => new { j.Id }).FirstOrDefaultAsync(cancel))?.Id;

    private static FactRow RowOf(Guid jobId, JobEntry entry) => new()
    {
        JobId = jobId,
        Number = entry.Number,
        Action = entry.Action,
        Device = entry.Device,
        At = entry.At,
        Fact = FactJson.Write(entry.Fact),
    };

    private static JobSummary SummaryOf(JobRow row, string engine) =>
        new(row.Id, row.Number, row.EngineId, engine, (JobStage)row.Stage, row.Clock, row.StartedAt, row.ChangedAt, row.ClosedAt, row.DiscardedAt, KeptRecords.IsNothingToDo(row.Record));

    private DateTime Now() => _time.GetUtcNow().UtcDateTime;
}
