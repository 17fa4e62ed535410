using Shimwright.Bench.Contents;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Starting;
using Shimwright.Jobs.Facts;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Engines;

public class RetireTests
{
    [Theory]
    [OnEachBench]
    public async Task RetireAsync_EngineWithJobs_LeavesEveryListAndComesBackWithItsPast(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IBench bench = test.Bench;
        Guid engine = await bench.AddEngineAsync("Flood pump 7"), other = await bench.AddEngineAsync("Flood pump 8");
        Guid closed = await bench.WorkedJobAsync(engine);
        await bench.SaveAsync(closed, new JobClosed(118, "", "", ""));
        await bench.StartJobAsync(engine);
        await bench.Due.StateUsageAsync(engine, 40, Cancel);
        await bench.Due.RefreshStaleAsync(10, Cancel);
        Assert.Single(await bench.Due.DatedAsync(10, Cancel));

        foreach (bool retired in new[] { true, true, false })
        {
            Assert.True(await bench.Engines.RetireAsync(engine, retired, Cancel));
            IBench seen = test.Another();
            Guid[] inUse = retired ? [other] : [engine, other];
            Assert.Equal(inUse, (await seen.Engines.ListAsync("pump", 0, 10, Cancel)).Select(e => e.Id));
            Assert.Equal(inUse.Length, await seen.Engines.CountAsync("pump", Cancel));
            Assert.Equal(inUse.Length, (await seen.Due.ListAsync(null, 0, 10, Cancel)).Count);
            Assert.Equal(retired ? 0 : 1, (await seen.Due.DatedAsync(10, Cancel)).Count);
            Assert.Equal(retired ? 0 : 1, (await seen.Jobs.OpenAsync(0, 10, Cancel)).Count);
            Assert.Equal(retired ? 0 : 1, await seen.Jobs.CountOpenAsync(Cancel));
            Assert.Equal(inUse.Length, await InOrdersAsync(seen));
            Assert.Equal(retired ? [engine] : [], (await seen.Engines.RetiredAsync("PUMP 7", 0, 10, Cancel)).Select(e => e.Id));
            Assert.Equal(retired ? 1 : 0, await seen.Engines.CountRetiredAsync(null, Cancel));
            StoredEngine found = (await seen.Engines.FindAsync(engine, Cancel))!;
            Assert.Equal(retired, found.RetiredAt is not null);
            Assert.Equal(2, (await seen.Jobs.OfEngineAsync(engine, Cancel)).Count);
            Assert.NotNull(await seen.Due.FindAsync(engine, Cancel));
            Assert.Empty(ContentRules.ProblemsOf(await seen.Copies.ContentsAsync(Cancel)));
            StartedJob started = await JobStart.OnAsync(seen, found, new(200, 20), Guid.NewGuid(), "phone", Cancel);
            Assert.Equal(retired, started.Job is null);
        }

        Assert.False(await bench.Engines.RetireAsync(Guid.NewGuid(), true, Cancel));

        static async Task<int> InOrdersAsync(IBench bench)
        {
            FleetOrders orders = await bench.Orders.ListAsync(cancel: Cancel);
            return orders.Counted.Count + orders.NotCounted.Count;
        }
    }

    /// <summary>Retiring is no change of the card: it goes through beside one, and neither is lost.</summary>
    [Theory]
    [OnEachBench]
    public async Task RetireAsync_WhileOthersSave_IsKept(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid id = await test.Bench.AddEngineAsync("One");
        await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            async () =>
            {
                IBench bench = test.Another();
                if (n == 4)
                {
                    Assert.True(await bench.Engines.RetireAsync(id, true, Cancel));
                    return;
                }

                // Whoever was late looks again, as a person does: retiring may be what came first.
                StoredEngine seen;
                do
                {
                    seen = (await bench.Engines.FindAsync(id, Cancel))!;
                }
                while (await bench.Engines.SaveAsync((id, seen.Version, seen.CardVersion), $"From {n}", seen.Card, seen.Details, "", cancel: Cancel) != SaveOutcome.Saved);
            },
            Cancel)));
        StoredEngine after = (await test.Bench.Engines.FindAsync(id, Cancel))!;
        Assert.NotNull(after.RetiredAt);
        Assert.StartsWith("From ", after.Name, StringComparison.Ordinal);
    }
}
