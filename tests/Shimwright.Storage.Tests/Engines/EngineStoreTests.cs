using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Engines;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.Engines;

public class EngineStoreTests
{
    private static readonly CardDetails Details = new()
    {
        ShimDiameter = 9.48,
        ThinnestShim = 1.2,
        ThickestShim = 3.5,
        AccessMinutes = new Dictionary<string, double> { ["intake cam"] = 25, ["exhaust cam"] = 30 },
        LimitsFrom = "manual, 3rd edition, p. 41",
        Notes = "é ½ 🔧",
    };

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_Engine_IsFoundAsItWasGiven(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid id = Guid.NewGuid();
        await database.Bench.Engines.AddAsync(id, "Étoile 50%", Card(), Details, "two\nlines", Cancel);
        StoredEngine? found = await database.Another().Engines.FindAsync(id, Cancel);
        Assert.NotNull(found);
        Assert.Equal(("Étoile 50%", "two\nlines", 1, 1, 1), (found.Name, found.Notes, found.Version, found.CardVersion, found.SharedBy));
        Assert.Equal("Étoile 50%", found.Card.Engine.Name);
        Assert.Equal(Card("Étoile 50%").Json, found.Card.Json);
        Assert.Equivalent(Details, found.Details, strict: true);
        Assert.Null(await database.Bench.Engines.FindAsync(Guid.NewGuid(), Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_SameIdEightTimesAtOnce_AddsOne(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid id = Guid.NewGuid();
        await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => database.Another().Engines.AddAsync(id, "One", Card("One"), Details, "", Cancel), Cancel)));
        Assert.Equal(1, await database.Bench.Engines.CountAsync(null, Cancel));
        await using BenchContext context = database.Bench.NewContext();
        Assert.Equal(1, await context.Cards.CountAsync(Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_NameThatNoCardMayHave_IsRefusedBeforeItIsKept(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        foreach (string name in (string[])["", " ", "two\nlines", "nul\0", new string('x', 201)])
        {
            await Assert.ThrowsAsync<ArgumentException>(() => database.Bench.Engines.AddAsync(Guid.NewGuid(), name, Card(), new(), "", Cancel));
        }

        Assert.Equal(0, await database.Bench.Engines.CountAsync(null, Cancel));
        await database.Bench.AddEngineAsync(string.Concat(Enumerable.Repeat("🔧", 200)));
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_NotesThatOneDatabaseCannotHold_AreCleaned(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid id = await database.Bench.AddEngineAsync("One", "a\0b\ud800c");
        Assert.Equal("ab\ufffdc", (await database.Bench.Engines.FindAsync(id, Cancel))?.Notes);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddSharingAsync_SecondEngineOfACard_KnowsWhatTheFirstLearns(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        IEngines engines = database.Bench.Engines;
        Guid first = await database.Bench.AddEngineAsync("Seven"), second = Guid.NewGuid();
        StoredEngine seven = (await engines.FindAsync(first, Cancel))!;
        await engines.AddSharingAsync(second, "Eight", seven.CardId, Cancel);
        await engines.AddSharingAsync(second, "Eight", seven.CardId, Cancel);
        Assert.Equal(SaveOutcome.Saved, await engines.SaveAsync((first, 1, 1), "Seven", seven.Card, Details, "", Cancel));
        StoredEngine eight = (await engines.FindAsync(second, Cancel))!;
        Assert.Equal(("Eight", "Eight", 2, 2, 1), (eight.Name, eight.Card.Engine.Name, eight.SharedBy, eight.CardVersion, eight.Version));
        Assert.Equal(9.48, eight.Details.ShimDiameter);
        await Assert.ThrowsAsync<ArgumentException>(() => engines.AddSharingAsync(Guid.NewGuid(), "Nine", Guid.NewGuid(), Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_EngineThatAnotherDeviceChangedMeanwhile_IsNotOverwritten(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        IEngines engines = database.Bench.Engines;
        Guid id = await database.Bench.AddEngineAsync("One");
        Assert.Equal(SaveOutcome.Saved, await engines.SaveAsync((id, 1, 1), "Two", Card(), Details, "from the tablet", Cancel));
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await engines.SaveAsync((id, 1, 1), "Three", Card(), Details, "from the phone", Cancel));
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await engines.SaveAsync((id, 2, 1), "Three", Card(), Details, "", Cancel));
        Assert.Equal(SaveOutcome.NoSuchEngine, await engines.SaveAsync((Guid.NewGuid(), 1, 1), "Three", Card(), Details, "", Cancel));
        StoredEngine found = (await engines.FindAsync(id, Cancel))!;
        Assert.Equal(("Two", "from the tablet", 2, 2), (found.Name, found.Notes, found.Version, found.CardVersion));
        Assert.Equal(1, await engines.CountAsync("two", Cancel));
        Assert.Equal(0, await engines.CountAsync("one", Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_EightDevicesAtOnce_OneIsSavedAndSevenAreTold(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid id = await database.Bench.AddEngineAsync("One");
        SaveOutcome[] outcomes = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => database.Another().Engines.SaveAsync((id, 1, 1), $"From {n}", Card(), Details, "", Cancel), Cancel)));
        Assert.Equal(1, outcomes.Count(o => o == SaveOutcome.Saved));
        Assert.Equal(7, outcomes.Count(o => o == SaveOutcome.ChangedMeanwhile));
        Assert.Equal($"From {Array.IndexOf(outcomes, SaveOutcome.Saved)}", (await database.Bench.Engines.FindAsync(id, Cancel))?.Name);
    }

    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_Search_FindsByPartsWithoutCaseAndAccentsAndTakesSignsAsTheyAre(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        string[] names = ["Étoile du Nord", "étoile 2", "100% rebuilt", "100 rebuilt", "a_b", "aXb", "back\\slash", "it's", "Zebra"];
        foreach (string name in names)
        {
            await database.Bench.AddEngineAsync(name);
        }

        async Task Finds(string search, params string[] expected)
        {
            Assert.Equal(expected, (await database.Bench.Engines.ListAsync(search, 0, 50, Cancel)).Select(e => e.Name));
            Assert.Equal(expected.Length, await database.Bench.Engines.CountAsync(search, Cancel));
        }

        await Finds("ÉTOILE", "étoile 2", "Étoile du Nord");
        await Finds("etoile du", "Étoile du Nord");
        await Finds(" Nord ", "Étoile du Nord");
        await Finds("100%", "100% rebuilt");
        await Finds("%", "100% rebuilt");
        await Finds("_", "a_b");
        await Finds("A_B", "a_b");
        await Finds("\\", "back\\slash");
        await Finds("'", "it's");
        await Finds("nothing of the kind");
        await Finds("", ["100 rebuilt", "100% rebuilt", "aXb", "a_b", "back\\slash", "étoile 2", "Étoile du Nord", "it's", "Zebra"]);
    }

    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_Pages_FollowOneAnother(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        foreach (int n in Enumerable.Range(10, 7))
        {
            await database.Bench.AddEngineAsync($"Engine {n}");
        }

        Assert.Equal(["Engine 13", "Engine 14", "Engine 15"], (await database.Bench.Engines.ListAsync(null, 3, 3, Cancel)).Select(e => e.Name));
        Assert.Equal(["Engine 16"], (await database.Bench.Engines.ListAsync("engine", 6, 3, Cancel)).Select(e => e.Name));
    }

    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_EngineWithJobs_HasItsOpenOnesAndItsLastClock(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync("Busy");
        await database.Bench.AddEngineAsync("Idle");
        Guid closed = await database.Bench.StartJobAsync(engine);
        await database.Bench.SaveAsync(closed, new Shimwright.Jobs.Facts.CheckStated(150.5, 20), new Shimwright.Jobs.Facts.JobClosed(151, "", "", ""));
        await database.Bench.StartJobAsync(engine);
        IReadOnlyList<EngineSummary> list = await database.Bench.Engines.ListAsync(null, 0, 10, Cancel);
        Assert.Equal([("Busy", 1, 150.5), ("Idle", 0, null)], list.Select(e => (e.Name, e.OpenJobs, e.LastClock)));
    }
}
