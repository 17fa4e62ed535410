using Shimwright.Bench.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Settings;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Due;

/// <summary>Whatever a forecast rests on, a bench on which nothing was stale sees that it is another; and only that.</summary>
public class StaleTests
{
    [Theory]
    [OnEachBench]
    public async Task RefreshStaleAsync_NothingWasStale_SeesEachChange(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync();
        Guid job = await test.Bench.WorkedJobAsync(engine);
        await test.Bench.SaveAsync(job, new JobClosed(119, "", "", ""));
        await WithinAsync(1);

        // Work on a job that is open, a new engine and the same settings once more say nothing of any forecast.
        Guid open = await test.Bench.StartJobAsync(engine);
        await test.Bench.SaveAsync(open, new JobNoted("oil on the belt"));
        await test.Bench.AddEngineAsync("Never checked");
        await WithinAsync(0);

        await test.Bench.SaveAsync(open, new JobClosed(125, "", "", ""));
        await WithinAsync(1);
        await test.Bench.SaveAsync(open, new JobReopened());
        await WithinAsync(1);
        await test.Bench.Due.StateUsageAsync(engine, 5, Cancel);
        await WithinAsync(1);
        StoredEngine stored = (await test.Bench.Engines.FindAsync(engine, Cancel))!;
        await test.Bench.Engines.SaveAsync((engine, stored.Version, stored.CardVersion), "Renamed", stored.Card, stored.Details with { ThinnestShim = 1.9 }, "", cancel: Cancel);
        await WithinAsync(1);
        await test.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.4 }, 0, "phone", Cancel);
        await WithinAsync(1);
        Assert.Equal(0.4, (await test.Bench.Due.FindAsync(engine, Cancel))!.Risk);

        async Task WithinAsync(int stale)
        {
            Assert.Equal(stale, await test.Bench.Due.RefreshStaleAsync(0, Cancel));
            Assert.Equal(0, await test.Bench.Due.RefreshStaleAsync(10, Cancel));
            Assert.Equal(0, await test.Bench.Due.RefreshStaleAsync(10, Cancel));
        }
    }
}
