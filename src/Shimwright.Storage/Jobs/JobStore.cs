using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Texts;
using Shimwright.Jobs;
using Shimwright.Jobs.Closing;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;

namespace Shimwright.Storage.Jobs;

/// <summary>Jobs, each with a sheet of facts that only grows.</summary>
internal sealed partial class JobStore : IJobs
{
    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;
    private readonly SetupCache _setups = new();

    internal JobStore(Func<BenchContext> open, TimeProvider time)
    {
        _open = open;
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

        if (action == Guid.Empty || !PlainText.CanNameADevice(device))
        {
            throw new ArgumentException("A job is started by an action and a device that has a name.", nameof(action));
        }

        DateTime now = Now();
        Guid id = Guid.CreateVersion7(_time.GetUtcNow());
        JobEntry[] entries = [.. facts.Select((fact, i) => new JobEntry(i + 1, action, device, now, fact))];
        JobSheet sheet = JobSheet.Of(setup, entries);
        if (JobSheetFile.Read(sheet, JobPurpose.Draft).Problems is { Count: > 0 } problems)
        {
            throw new ArgumentException($"The facts do not belong to the setup: {string.Join("; ", problems)}", nameof(facts));
        }

        context.Jobs.Add(new JobRow
        {
            Id = id,
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
        context.Facts.AddRange(entries.Select(e => RowOf(id, e)));
        try
        {
            await context.SaveChangesAsync(cancel);
            return id;
        }
        catch (DbUpdateException)
        {
            await using BenchContext again = _open();
            if (await StartedBy(again, action, cancel) is { } meanwhile)
            {
                return meanwhile;
            }

            throw;
        }
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

        JobSheet sheet = await JobShims.WithShopAsync(context, row, await SheetOf(context, row, cancel), cancel);
        return new(SummaryOf(row, row.Engine.Name), sheet, row.Record is null ? null : JobRecord.Read(row.Record));
    }

    /// <inheritdoc/>
    public async Task<AddResult> AddAsync(Guid id, Addition addition, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(addition);
        if (addition.Action == Guid.Empty)
        {
            throw new ArgumentException("An addition needs an action of its own.", nameof(addition));
        }

        await using BenchContext context = _open();
        await using IDbContextTransaction transaction = await context.Database.BeginTransactionAsync(cancel);

        // Whoever is about to add holds the job's row first: others wait here, and then see what was added before them.
        if (await context.Jobs.Where(j => j.Id == id).ExecuteUpdateAsync(s => s.SetProperty(j => j.Last, j => j.Last), cancel) == 0)
        {
            return new(AddOutcome.NoSuchJob, [], []);
        }

        JobRow row = await context.Jobs.FirstAsync(j => j.Id == id, cancel);
        JobSheet sheet = await SheetOf(context, row, cancel);
        JobShims? shims = await JobShims.ForAsync(context, row, sheet, addition, cancel);
        if (shims is not null)
        {
            sheet = shims.Sheet;
            addition = shims.Complete(addition);
        }

        if (AdditionRules.Reject(sheet, addition) is { } rejected)
        {
            return rejected;
        }

        bool wasClosed = row.ClosedAt is not null;
        JobSheet after = Apply(context, row, sheet, addition);
        if (shims is not null && await shims.SettleAsync(after, addition, Now(), cancel) is { Count: > 0 } problems)
        {
            return new(AddOutcome.Refused, problems, []);
        }

        await context.SaveChangesAsync(cancel);
        if (wasClosed || row.ClosedAt is not null)
        {
            await Due.DueStore.NoteChangeAsync(context, row.EngineId, cancel);
        }

        await transaction.CommitAsync(cancel);
        return new(AddOutcome.Saved, [], []);
    }

    private JobSheet Apply(BenchContext context, JobRow row, JobSheet sheet, Addition addition)
    {
        DateTime now = Now();
        JobEntry[] added = [.. addition.Facts.Select((fact, i) => new JobEntry(sheet.Last + 1 + i, addition.Action, addition.Device, now, fact))];
        JobSheet after = JobSheet.Of(sheet.Setup, [.. sheet.Entries, .. added]).WithShop(sheet.Shop);
        context.Facts.AddRange(added.Select(e => RowOf(row.Id, e)));
        row.Last = after.Last;
        row.Stage = (int)JobStages.Of(after);
        row.Clock = after.Check.Clock;
        row.ChangedAt = now;
        if (after.Closing is null)
        {
            row.ClosedAt = null;
            row.Record = null;
        }
        else if (row.ClosedAt is null || addition.Facts.Any(f => f is JobClosed))
        {
            row.ClosedAt = now;
            row.Record = RecordOfJob.Of(after).ToJson();
        }

        return after;
    }

    internal async Task<JobSheet> SheetOf(BenchContext context, JobRow row, CancellationToken cancel)
    {
        List<FactRow> facts = await context.Facts.AsNoTracking()
            .Where(f => f.JobId == row.Id && f.Number <= row.Last).OrderBy(f => f.Number).ToListAsync(cancel);
        return SheetOf(row, facts);
    }

    /// <summary>Lays facts, in order, over what a job started from.</summary>
    internal JobSheet SheetOf(JobRow row, IEnumerable<FactRow> facts) => JobSheet.Of(
        _setups.Get(row.Id, row.Setup),
        [.. facts.Select(f => new JobEntry(f.Number, f.Action, f.Device, f.At, FactJson.Read(f.Fact)))]);

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
        new(row.Id, row.EngineId, engine, (JobStage)row.Stage, row.Clock, row.StartedAt, row.ChangedAt, row.ClosedAt);

    private DateTime Now() => _time.GetUtcNow().UtcDateTime;
}
