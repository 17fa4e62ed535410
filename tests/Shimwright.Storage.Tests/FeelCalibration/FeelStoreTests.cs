using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Written;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.FeelCalibration;

public class FeelStoreTests
{
    private static readonly TrialMade Trial = new(0.195, 0.2, 1, "firm");

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_EveryKindOfEntry_ComesBack(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        IFeel store = database.Bench.Feel;
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
    [OnEachDatabase]
    public async Task AddAsync_TheSameActionTwice_CountsOnce(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        IFeel store = database.Bench.Feel;
        var id = Guid.NewGuid();
        await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        var action = Guid.NewGuid();
        Assert.Empty(await store.AddAsync(id, action, "phone", new FeelTried([Trial]), Cancel));
        Assert.Empty(await store.AddAsync(id, action, "phone", new FeelTried([Trial]), Cancel));
        Assert.Single((await store.FindAsync(id, Cancel))!.Book.Trials);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_EightDevicesAtOnce_AllAreKept(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        var id = Guid.NewGuid();
        await database.Bench.Feel.AddAsync(id, Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => database.Another().Feel.AddAsync(id, Guid.NewGuid(), $"device {n}", new FeelTried([Trial]), Cancel), Cancel)));
        Assert.Equal(8, (await database.Bench.Feel.FindAsync(id, Cancel))!.Book.Trials.Count);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_WhatCannotBe_IsRefused(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        IFeel store = database.Bench.Feel;
        var id = Guid.NewGuid();
        Assert.Single(await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelTried([Trial]), Cancel));
        await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        Assert.Equal(3, (await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelTried([new(double.NaN, 0.2, 0, "tight")]), Cancel)).Count);
        Assert.Single(await store.AddAsync(id, Guid.NewGuid(), "phone", new FeelTakenBack(1), Cancel));
        Assert.Equal(1, (await store.FindAsync(id, Cancel))!.Book.Last);
    }

    [Theory]
    [OnEachDatabase]
    public async Task Entries_ChangedOrTakenAway_AreDefendedByTheDatabase(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await database.Bench.Feel.AddAsync(Guid.NewGuid(), Guid.NewGuid(), "phone", new FeelNamed("Ines"), Cancel);
        await using BenchContext context = database.Bench.NewContext();
        await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => context.Feels.ExecuteDeleteAsync(Cancel));
        await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => context.Feels.ExecuteUpdateAsync(s => s.SetProperty(f => f.Entry, "{}"), Cancel));
    }
}
