using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Orders;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Samples;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Database;

/// <summary>What the tables hold beside what a bench tells of them.</summary>
public class RowsTests
{
    [Theory]
    [OnEachDatabase]
    public async Task Cards_OfAnEngineSentEightTimesAtOnce_AreOne(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid id = Guid.NewGuid();
        await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => database.Another().Engines.AddAsync(id, "One", Card("One"), new(), "", cancel: Cancel), Cancel)));
        await using BenchContext context = database.Bench.NewContext();
        Assert.Equal(1, await context.Cards.CountAsync(Cancel));
    }

    /// <summary>What another device is just saving is there before the job says that it is.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task Facts_BeyondTheLastThatTheJobKnows_AreNotRead(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.SaveAsync(job, new JobNoted("saved"));
        await using (BenchContext context = database.Bench.NewContext())
        {
            FactRow saved = await context.Facts.AsNoTracking().SingleAsync(f => f.JobId == job, Cancel);
            context.Facts.Add(new FactRow { JobId = job, Number = saved.Number + 1, Action = Guid.NewGuid(), Device = "tablet", At = saved.At, Fact = saved.Fact });
            await context.SaveChangesAsync(Cancel);
        }

        Assert.Single((await database.Bench.FindJobAsync(job)).Sheet.Entries);
    }

    /// <summary>Rows that an earlier program wrote keep their checksums: what came to them later is told only where it is there.</summary>
    [Fact]
    public void Sums_OfRowsNeitherRetiredNorDiscarded_AreThoseOfTheProgramBefore()
    {
        Guid id = new("01234567-89ab-cdef-0123-456789abcdef");
        EngineRow engine = new() { Id = id, CardId = id, Name = "One", Search = "one", Notes = "note", Version = 3 };
        JobRow job = new() { Id = id, EngineId = id, Setup = "{}", Stage = 2, Last = 5, Action = id, Clock = 118.5, Past = 1 };
        Assert.Equal((8146229697566004532L, 8261547759284678203L), (RowSum.Of(engine), RowSum.Of(job)));
        (engine.Sum, job.Sum) = (RowSum.Of(engine), RowSum.Of(job));
        (engine.RetiredAt, job.DiscardedAt) = (DateTime.UnixEpoch, DateTime.UnixEpoch);
        Assert.False(RowSum.Holds(engine) || RowSum.Holds(job));
    }

    [Theory]
    [OnEachDatabase]
    public async Task Settings_SavedTwice_AreKeptInEveryState(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Assert.True(await database.Bench.Settings.SaveAsync(new() { Redo = 70, Currency = "½é" }, 0, "phone", Cancel));
        Assert.True(await database.Bench.Settings.SaveAsync(new() { Redo = 90 }, 1, "tablet", Cancel));
        await using BenchContext context = database.Bench.NewContext();
        SettingsRow first = await context.Settings.OrderBy(s => s.Version).FirstAsync(Cancel);
        Assert.Equal(("phone", "½é"), (first.Device, BenchSettings.Read(first.Settings).Currency));
    }

    [Theory]
    [OnEachDatabase]
    public async Task Ledger_ChangedOrTakenAway_IsKeptByTheTableItself(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await database.Bench.Drawer.AddAsync(new(ShimSize.Of(9.48, 2.45, "micrometer"), 3), new(Guid.NewGuid(), "phone"), Cancel);
        await using BenchContext context = database.Bench.NewContext();
        string[] orders = ["UPDATE shim_moves SET \"Change\" = 9", "DELETE FROM shim_moves", .. kind == DatabaseKind.Postgres ? ["TRUNCATE shim_moves CASCADE"] : Array.Empty<string>()];
        foreach (string order in orders)
        {
            Exception e = await Assert.ThrowsAnyAsync<Exception>(() => context.Database.ExecuteSqlRawAsync(order, Cancel));
            Assert.Contains("Entries of the drawer are added, never", e.Message, StringComparison.Ordinal);
        }

        Assert.Equal(3, Assert.Single(await database.Bench.Drawer.LotsAsync(Cancel)).Count);
    }

    [Theory]
    [OnEachDatabase]
    public async Task Feels_ChangedOrTakenAway_AreKeptByTheTableItself(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await database.Bench.Feel.AddAsync(Guid.NewGuid(), Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        await using BenchContext context = database.Bench.NewContext();
        await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => context.Feels.ExecuteDeleteAsync(Cancel));
        await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => context.Feels.ExecuteUpdateAsync(s => s.SetProperty(f => f.Entry, "{}"), Cancel));
    }

    /// <summary>Forecasts that were kept before their valves were are worked out again, and until then named.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task Forecast_OfAnOlderProgram_IsNamedThenWorkedOutAgain(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = Guid.NewGuid();
        await database.Bench.Engines.AddAsync(engine, "Flood pump 7", Card(), new CardDetails { ShimDiameter = 9.48 }, cancel: Cancel);
        Guid job = await database.Bench.StartJobAsync(engine);
        await database.Bench.MeasureAsync(job);
        await database.Bench.SaveAsync(job, new JobClosed(118, "", "", ""));
        await database.Bench.Due.RefreshStaleAsync(10, Cancel);
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Forecasts.ExecuteUpdateAsync(s => s.SetProperty(f => f.Valves, "").SetProperty(f => f.SettingsMark, "older"), Cancel);
        }

        BenchDatabase newer = database.Another();
        Assert.Equal(NotCountedReason.NotReady, Assert.Single((await newer.Orders.ListAsync(cancel: Cancel)).NotCounted).Reason);
        await newer.Due.RefreshStaleAsync(10, Cancel);
        Assert.Single((await newer.Orders.ListAsync(cancel: Cancel)).Counted);
    }

    /// <summary>A forecast of the first edition, which knew its settings by their text alone, is worked out anew by the rules of now.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task Forecast_OfTheFirstEditionsRules_IsStale(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = Guid.NewGuid();
        await database.Bench.Engines.AddAsync(engine, "Flood pump 7", Card(), new CardDetails(), cancel: Cancel);
        Guid job = await database.Bench.StartJobAsync(engine);
        await database.Bench.MeasureAsync(job);
        await database.Bench.SaveAsync(job, new JobClosed(118, "", "", ""));
        double fresh = (await database.Bench.Due.FindAsync(engine, Cancel))!.CheckBy!.Value;
        BenchSettings settings = new();
        string text = settings.ForJob(new Dictionary<string, double> { ["lift"] = settings.Lift }).ToJson();
        string mark = Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..16];
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Forecasts.ExecuteUpdateAsync(s => s.SetProperty(f => f.SettingsMark, mark).SetProperty(f => f.CheckBy, 118.0), Cancel);
        }

        Assert.Equal(fresh, (await database.Bench.Due.FindAsync(engine, Cancel))!.CheckBy!.Value, 1e-9);
        await using BenchContext now = database.Bench.NewContext();
        Assert.NotEqual(mark, (await now.Forecasts.SingleAsync(Cancel)).SettingsMark);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_SaveThatFailsForAnotherReason_IsNotTriedAgain(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Database.ExecuteSqlRawAsync(
                kind == DatabaseKind.Sqlite
                    ? "CREATE TRIGGER full_disk BEFORE INSERT ON facts BEGIN SELECT RAISE(ABORT, 'the disk is full'); END"
                    : """
                      CREATE FUNCTION full_disk() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'the disk is full'; END $$;
                      CREATE TRIGGER full_disk BEFORE INSERT ON facts FOR EACH ROW EXECUTE FUNCTION full_disk()
                      """,
                Cancel);
        }

        // Each try would fail once.
        using CommandErrors errors = new();
        await Assert.ThrowsAsync<DbUpdateException>(() => database.Bench.SendAsync(job, "phone", 0, new JobNoted("x")));
        Assert.Equal(1, errors.Count);
    }
}
