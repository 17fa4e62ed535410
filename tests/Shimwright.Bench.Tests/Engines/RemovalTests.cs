using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Tests.Drawer;
using Shimwright.Jobs.Facts;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Engines;

public class RemovalTests
{
    [Theory]
    [OnEachBench]
    public async Task RemoveAsync_EngineWithJobs_NothingOfItIsLeftAndTheRestIs(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IBench bench = test.Bench;
        Guid stays = await bench.AddEngineAsync("Flood pump 8");
        Guid kept = await bench.WorkedJobAsync(stays);
        Guid goes = Guid.NewGuid();
        await bench.Engines.AddAsync(goes, "Flood pump 7", Card(), new CardDetails { ShimDiameter = 9.48 }, "The owner's number is on the door", cancel: Cancel);
        foreach (double thickness in new[] { 2.3, 2.35, 2.4, 2.45, 2.5, 2.55 })
        {
            await DrawerTests.SaveAsync(bench.Drawer.AddAsync(new(ShimSize.Of(9.48, thickness, "micrometer"), 2), DrawerTests.Stamp(), Cancel));
        }

        Guid job = await bench.WorkedJobAsync(goes), open = await bench.StartJobAsync(goes);
        await bench.SaveAsync(job, new JobClosed(118, "for the owner", "", "Wren"));
        BenchContents before = await bench.Copies.ContentsAsync(Cancel);
        Assert.Contains(before.Ledger, e => e.Job == job);

        Assert.Equal("name", Assert.Single(await bench.Engines.RemoveAsync(goes, "flood pump 7", Cancel)).Path);
        Assert.Equal(before.Rows, (await bench.Copies.ContentsAsync(Cancel)).Rows);
        Assert.Empty(await bench.Engines.RemoveAsync(goes, " Flood pump 7 ", Cancel));
        Assert.Equal("engine", Assert.Single(await bench.Engines.RemoveAsync(goes, "Flood pump 7", Cancel)).Path);

        BenchContents after = await test.Another().Copies.ContentsAsync(Cancel);
        Assert.Empty(ContentRules.ProblemsOf(after));
        using MemoryStream archive = new();
        BenchArchive.Write(after, DateTime.UnixEpoch, archive);
        Assert.DoesNotContain(after.Facts, f => f.Job == job || f.Job == open);
        Assert.Equal([kept], after.Jobs.Select(j => j.Id));
        Assert.Equal([stays], after.Engines.Select(e => e.Id));
        Assert.Single(after.Cards);
        Assert.Equal(before.Facts.Where(f => f.Job == kept), after.Facts);
        Assert.Equal(before.Ledger.Select(e => (e.Number, e.Size, e.Change)), after.Ledger.Select(e => (e.Number, e.Size, e.Change)));
        Assert.All(after.Ledger, e => Assert.Null(e.Job));
        Assert.Null(await bench.Jobs.FindAsync(job, Cancel));

        // What a job did is not taken back entry by entry, though it is gone.
        LedgerEntry taken = after.Ledger.First(e => e.Reason is ShimReason.Taken or ShimReason.CameOut);
        Assert.Contains("a job that was removed", Assert.Single((await bench.Drawer.UndoAsync(taken.Number, DrawerTests.Stamp(), Cancel)).Problems).Found, StringComparison.Ordinal);
        await bench.SaveAsync(kept, new JobNoted("goes on"));
    }

    [Theory]
    [OnEachBench]
    public async Task Alone_BeforeItIsRemoved_IsTheEngineWithItsJobsForAnotherBench(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind), other = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync();
        Guid job = await test.Bench.WorkedJobAsync(engine);
        await test.Bench.StartJobAsync();
        BenchContents alone = (await test.Bench.Copies.ContentsAsync(Cancel)).Alone(engine);
        Assert.True(await other.Bench.Copies.TakeInAsync(alone, null, Cancel));
        Assert.False(await other.Bench.Copies.TakeInAsync(alone, null, Cancel));
        Assert.Equal(await ToldAsync(test.Bench), await ToldAsync(other.Bench));
        Assert.Equal(1, await other.Bench.Engines.CountAsync(null, Cancel));

        async Task<IEnumerable<string>> ToldAsync(IBench bench) =>
            (await bench.FindJobAsync(job)).Sheet.Entries.Select(e => $"{e.Number} {e.Action} {e.Device} {e.At:O} {FactJson.Write(e.Fact)}");
    }
}
