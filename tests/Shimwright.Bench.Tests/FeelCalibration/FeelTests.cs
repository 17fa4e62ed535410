using Shimwright.Bench.FeelCalibration;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Written;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.FeelCalibration;

public class FeelTests
{
    private static readonly TrialMade Trial = new(0.195, 0.2, 1, "firm");

    [Theory]
    [OnEachBench]
    public async Task AddAsync_EveryKindOfEntry_ComesBack(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IFeel store = test.Bench.Feel;
        var id = Guid.NewGuid();
        FeelSettings feel = FeelSettings.Usual with { Firm = -0.03 };
        foreach (FeelEntry entry in new FeelEntry[] { new FeelNamed(" Inés\0 "), new FeelTried([Trial]), new FeelTried([Trial, Trial]), new FeelTakenBack(2), new FeelUsed(feel) })
        {
            Assert.Empty(await store.AddAsync(id, Guid.NewGuid(), "phone", entry, Cancel));
        }

        StoredFeel person = Assert.Single(await store.ListAsync(Cancel));
        Assert.Equal(("Inés", 5, feel), (person.Book.Name, person.Book.Last, person.Book.Used!));
        Assert.Equal(3, Assert.Single(person.Book.Booked).Number);
        Assert.Equal(2, (await store.FindAsync(id, Cancel))!.Book.Trials.Count);
        Assert.Null(await store.FindAsync(Guid.NewGuid(), Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_TheSameActionTwice_CountsOnce(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IFeel store = test.Bench.Feel;
        var id = Guid.NewGuid();
        await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        var action = Guid.NewGuid();
        Assert.Empty(await store.AddAsync(id, action, "phone", new FeelTried([Trial]), Cancel));
        Assert.Empty(await store.AddAsync(id, action, "phone", new FeelTried([Trial]), Cancel));
        Assert.Single((await store.FindAsync(id, Cancel))!.Book.Trials);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_EightDevicesAtOnce_AllAreKept(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        var id = Guid.NewGuid();
        await test.Bench.Feel.AddAsync(id, Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => test.Another().Feel.AddAsync(id, Guid.NewGuid(), $"device {n}", new FeelTried([Trial]), Cancel), Cancel)));
        Assert.Equal(8, (await test.Bench.Feel.FindAsync(id, Cancel))!.Book.Trials.Count);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_WhatCannotBe_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IFeel store = test.Bench.Feel;
        var id = Guid.NewGuid();
        Assert.Single(await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelTried([Trial]), Cancel));
        await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        Assert.Equal(3, (await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelTried([new(double.NaN, 0.2, 0, "tight")]), Cancel)).Count);
        Assert.Single(await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelTakenBack(1), Cancel));
        Assert.Equal(1, (await store.FindAsync(id, Cancel))!.Book.Last);
    }

}
