using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.InMemory;
using Shimwright.Bench.Tests.Alike;
using Shimwright.Jobs.Facts;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.InMemory;

/// <summary>What a bench in memory does beside what any bench must: it is filled, and it tells what has changed.</summary>
public class MemoryBenchTests
{
    [Fact]
    public async Task Contents_PutIntoAnotherBench_AnswerAlike()
    {
        (MemoryBench bench, _) = await WorkedAsync();
        var twins = new Twins(TestBench.Of(bench), TestBench.Of(new MemoryBench(new ManualTime(), bench.Contents())));
        twins.Know((await bench.Jobs.OpenAsync(0, 10, Cancel)).Concat(await bench.Jobs.ClosedAsync(0, 10, Cancel)).Select(j => j.Id));
        foreach (Func<Twin, Task<string>> view in Views.All.Where(v => v != Views.DueAsync))
        {
            Assert.NotEmpty(await twins.DoAsync("looked at", view));
        }

        // Forecasts are worked out again: the outlooks above have done it.
        Assert.Contains("Flood pump", await twins.DoAsync("looked at", Views.DueAsync), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Changes_LaidOneUponAnother_AreTheContents()
    {
        (MemoryBench bench, List<BenchContents> changes) = await WorkedAsync();
        Assert.All(changes, c => Assert.NotEqual(0, Rows(c)));
        MemoryBench second = new(new ManualTime(), Together(changes));
        Assert.Equivalent(bench.Contents(), second.Contents(), strict: true);
        // A change has the rows that changed and no others.
        Assert.True(changes[^1] is { Jobs.Count: 1, Facts.Count: 1, Engines.Count: 0, Cards.Count: 0, Ledger.Count: 0 });
    }

    [Fact]
    public async Task Keep_ThatFails_LeavesTheBenchAsItWas()
    {
        bool fails = false;
        MemoryBench bench = new(new ManualTime(), keep: _ =>
        {
            if (fails)
            {
                throw new IOException("The disk is full.");
            }
        });
        Guid job = await bench.StartJobAsync();
        BenchContents before = bench.Contents();
        fails = true;
        await Assert.ThrowsAsync<IOException>(() => bench.SendAsync(job, "phone", 0, new JobNoted("x")));
        await Assert.ThrowsAsync<IOException>(() => bench.AddEngineAsync("Eight"));
        await Assert.ThrowsAsync<IOException>(() => bench.Drawer.AddAsync(new(ShimSize.Of(9.48, 2.4, "marked"), 1), new(Guid.NewGuid(), "phone"), Cancel));
        await Assert.ThrowsAsync<IOException>(() => bench.Settings.SaveAsync(new() { Redo = 70 }, 0, "phone", Cancel));
        Assert.Equivalent(before, bench.Contents(), strict: true);
        fails = false;
        await bench.SaveAsync(job, new JobNoted("x"));
    }

    [Fact]
    public async Task Contents_ThatDoNotBelongTogether_AreRefused()
    {
        (MemoryBench bench, _) = await WorkedAsync();
        BenchContents whole = bench.Contents();
        Assert.Throws<ArgumentException>(() => new MemoryBench(new ManualTime(), whole with { Cards = [] }));
        Assert.Throws<ArgumentException>(() => new MemoryBench(new ManualTime(), whole with { Engines = [] }));
        Assert.Throws<ArgumentException>(() => new MemoryBench(new ManualTime(), whole with { Jobs = [] }));
        Assert.Throws<ArgumentException>(() => new MemoryBench(new ManualTime(), whole with { Ledger = [.. whole.Ledger.Skip(1)] }));
    }

    /// <summary>Two engines of one card, one job closed that used the drawer, one open that has promised from it.</summary>
    private static async Task<(MemoryBench Bench, List<BenchContents> Changes)> WorkedAsync()
    {
        List<BenchContents> changes = [];
        MemoryBench bench = new(new ManualTime(), keep: changes.Add);
        Guid first = Guid.NewGuid(), second = Guid.NewGuid();
        await bench.Engines.AddAsync(first, "Flood pump 1", Card("Flood pump 1"), new CardDetails { ShimDiameter = 9.48 }, cancel: Cancel);
        await bench.Engines.AddSharingAsync(second, "Flood pump 2", (await bench.Engines.FindAsync(first, Cancel))!.CardId, Cancel);
        await bench.Due.StateUsageAsync(first, 10, Cancel);
        await bench.Settings.SaveAsync(new() { Redo = 70 }, 0, "phone", Cancel);
        await bench.Feel.AddAsync(Guid.NewGuid(), Guid.NewGuid(), "phone", new Shimwright.Jobs.FeelCalibration.FeelNamed("Ines"), Cancel);
        await bench.Drawer.AddAsync(new(ShimSize.Of(9.48, 2.415, "micrometer"), 2, "B4", 7), new(Guid.NewGuid(), "phone"), Cancel);
        await bench.Drawer.AddAsync(new(ShimSize.Of(9.48, 2.8, "marked"), 1), new(Guid.NewGuid(), "phone"), Cancel);
        await bench.Drawer.MeasureAsync(ShimSize.Of(9.48, 2.8, "marked"), 2.81, null, new(Guid.NewGuid(), "phone"), Cancel);
        await bench.SaveAsync(await bench.WorkedJobAsync(first), new JobClosed(119, "", "", ""));
        Guid open = await bench.StartJobAsync(second);
        await bench.MeasureAsync(open);
        await bench.SaveAsync(open, PlanOf((await bench.FindJobAsync(open)).Sheet));
        await bench.SaveAsync(open, new JobNoted("tea"));
        Assert.NotEmpty(bench.Contents().Promises);
        return (bench, changes);
    }

    private static BenchContents Together(IReadOnlyList<BenchContents> changes) => new()
    {
        Cards = [.. changes.SelectMany(c => c.Cards)],
        Engines = [.. changes.SelectMany(c => c.Engines)],
        Jobs = [.. changes.SelectMany(c => c.Jobs)],
        Facts = [.. changes.SelectMany(c => c.Facts)],
        Promises = [.. changes.SelectMany(c => c.Promises)],
        Ledger = [.. changes.SelectMany(c => c.Ledger)],
        Settings = [.. changes.SelectMany(c => c.Settings)],
        Feels = [.. changes.SelectMany(c => c.Feels)],
    };

    private static int Rows(BenchContents c) =>
        c.Cards.Count + c.Engines.Count + c.Jobs.Count + c.Facts.Count + c.Promises.Count + c.Ledger.Count + c.Settings.Count + c.Feels.Count;
}
