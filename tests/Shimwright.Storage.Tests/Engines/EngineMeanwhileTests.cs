using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Engines;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Samples;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Engines;

/// <summary>Two devices that change one engine: not one after the other, but the one while the other is between reading and saving.</summary>
public class EngineMeanwhileTests
{
    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_AnotherSavedInBetween_ChangesNothing(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        StoredEngine engine = await EngineAsync(database);
        SaveOutcome? other = null;
        using var between = new BeforeSaving(() => other = Apart(() => SaveAsync(database.Another(), engine, "the other's")));
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await SaveAsync(database.Bench, engine, "mine"));
        Assert.Equal(SaveOutcome.Saved, other);
        Assert.Equal("the other's", (await database.Bench.Engines.FindAsync(engine.Id, Cancel))!.Notes);
    }

    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_EngineAloneChangedInBetween_ChangesNothing(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        StoredEngine engine = await EngineAsync(database);
        using var between = new BeforeSaving(() => Change(database, c => c.Engines.Where(e => e.Id == engine.Id).ExecuteUpdate(s => s.SetProperty(e => e.Version, 2))));
        await AssertRefusedAsync(database, engine, between);
    }

    /// <summary>A card that two engines share is changed with either of them.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_CardAloneChangedInBetween_ChangesNothing(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        StoredEngine engine = await EngineAsync(database);
        using var between = new BeforeSaving(() => Change(database, c => c.Cards.Where(e => e.Id == engine.CardId).ExecuteUpdate(s => s.SetProperty(e => e.Version, 2))));
        await AssertRefusedAsync(database, engine, between);
    }

    /// <summary>What came of the one save is what the next one has seen.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_TwiceEachWithWhatItSaw_SavesBoth(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        StoredEngine engine = await EngineAsync(database);
        Assert.Equal(SaveOutcome.Saved, await SaveAsync(database.Bench, engine, "once"));
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await SaveAsync(database.Bench, engine, "late"));
        Assert.Equal(SaveOutcome.Saved, await SaveAsync(database.Bench, (await database.Bench.Engines.FindAsync(engine.Id, Cancel))!, "twice"));
        Assert.Equal("twice", (await database.Bench.Engines.FindAsync(engine.Id, Cancel))!.Notes);
    }

    private static async Task AssertRefusedAsync(TestDatabase database, StoredEngine engine, BeforeSaving between)
    {
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await SaveAsync(database.Bench, engine, "mine"));
        Assert.True(between.WasDone);
        Assert.Equal("", (await database.Bench.Engines.FindAsync(engine.Id, Cancel))!.Notes);
    }

    /// <summary>Another device, to the end, while this one stands still.</summary>
    private static SaveOutcome Apart(Func<Task<SaveOutcome>> save)
    {
        using (ExecutionContext.SuppressFlow())
        {
            return Task.Run(save).GetAwaiter().GetResult();
        }
    }

    private static void Change(TestDatabase database, Func<BenchContext, int> change)
    {
        using BenchContext context = database.Another().NewContext();
        Assert.Equal(1, change(context));
    }

    private static Task<SaveOutcome> SaveAsync(BenchDatabase bench, StoredEngine seen, string notes) =>
        bench.Engines.SaveAsync((seen.Id, seen.Version, seen.CardVersion), seen.Name, seen.Card, seen.Details, notes, cancel: Cancel);

    private static async Task<StoredEngine> EngineAsync(TestDatabase database) =>
        (await database.Bench.Engines.FindAsync(await database.Bench.AddEngineAsync(), Cancel))!;
}
