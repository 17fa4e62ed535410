using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Engines;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Engines;

public class EnginesTests
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
    [OnEachBench]
    public async Task AddAsync_Engine_IsFoundAsItWasGiven(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid id = Guid.NewGuid();
        await test.Bench.Engines.AddAsync(id, "Étoile 50%", Card(), Details, "two\nlines", new(" Ferry company ", "ÉF-1/b"), Cancel);
        StoredEngine? found = await test.Another().Engines.FindAsync(id, Cancel);
        Assert.NotNull(found);
        Assert.Equal(("Étoile 50%", "two\nlines", 1, 1, 1), (found.Name, found.Notes, found.Version, found.CardVersion, found.SharedBy));
        Assert.Equal(new EnginePapers("Ferry company", "ÉF-1/b"), found.Papers);
        Assert.Equal("Étoile 50%", found.Card.Engine.Name);
        Assert.Equal(Card("Étoile 50%").Json, found.Card.Json);
        Assert.Equivalent(Details, found.Details, strict: true);
        Assert.Null(await test.Bench.Engines.FindAsync(Guid.NewGuid(), Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_SameIdEightTimesAtOnce_AddsOne(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid id = Guid.NewGuid();
        await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => test.Another().Engines.AddAsync(id, "One", Card("One"), Details, "", cancel: Cancel), Cancel)));
        Assert.Equal(1, await test.Bench.Engines.CountAsync(null, Cancel));
        Assert.Equal(1, (await test.Bench.Engines.FindAsync(id, Cancel))!.SharedBy);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_NameThatNoCardMayHave_IsRefusedBeforeItIsKept(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        foreach (string name in (string[])["", " ", "two\nlines", "nul\0", new string('x', 201)])
        {
            await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Engines.AddAsync(Guid.NewGuid(), name, Card(), new(), "", cancel: Cancel));
        }

        Assert.Equal(0, await test.Bench.Engines.CountAsync(null, Cancel));
        await test.Bench.AddEngineAsync(string.Concat(Enumerable.Repeat("🔧", 200)));
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_NotesThatOneDatabaseCannotHold_AreCleaned(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid id = await test.Bench.AddEngineAsync("One", "a\0b\ud800c");
        Assert.Equal("ab\ufffdc", (await test.Bench.Engines.FindAsync(id, Cancel))?.Notes);
    }

    [Theory]
    [OnEachBench]
    public async Task AddSharingAsync_SecondEngineOfACard_KnowsWhatTheFirstLearns(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IEngines engines = test.Bench.Engines;
        Guid first = await test.Bench.AddEngineAsync("Seven"), second = Guid.NewGuid();
        StoredEngine seven = (await engines.FindAsync(first, Cancel))!;
        await engines.AddSharingAsync(second, "Eight", seven.CardId, Cancel);
        await engines.AddSharingAsync(second, "Eight", seven.CardId, Cancel);
        Assert.Equal(SaveOutcome.Saved, await engines.SaveAsync((first, 1, 1), "Seven", seven.Card, Details, "", cancel: Cancel));
        StoredEngine eight = (await engines.FindAsync(second, Cancel))!;
        Assert.Equal(("Eight", "Eight", 2, 2, 1), (eight.Name, eight.Card.Engine.Name, eight.SharedBy, eight.CardVersion, eight.Version));
        Assert.Equal(9.48, eight.Details.ShimDiameter);
        await Assert.ThrowsAsync<ArgumentException>(() => engines.AddSharingAsync(Guid.NewGuid(), "Nine", Guid.NewGuid(), Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task SaveAsync_EngineThatAnotherDeviceChangedMeanwhile_IsNotOverwritten(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IEngines engines = test.Bench.Engines;
        Guid id = await test.Bench.AddEngineAsync("One");
        Assert.Equal(SaveOutcome.Saved, await engines.SaveAsync((id, 1, 1), "Two", Card(), Details, "from the tablet", new("Ferry company", ""), Cancel));
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await engines.SaveAsync((id, 1, 1), "Three", Card(), Details, "from the phone", cancel: Cancel));
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await engines.SaveAsync((id, 2, 1), "Three", Card(), Details, "", cancel: Cancel));
        Assert.Equal(SaveOutcome.NoSuchEngine, await engines.SaveAsync((Guid.NewGuid(), 1, 1), "Three", Card(), Details, "", cancel: Cancel));
        await Assert.ThrowsAsync<ArgumentException>(() => engines.SaveAsync((id, 2, 2), "Two", Card(), Details, "", new("two\nlines", ""), Cancel));
        StoredEngine found = (await engines.FindAsync(id, Cancel))!;
        Assert.Equal(new EnginePapers("Ferry company", ""), found.Papers);
        Assert.Equal(("Two", "from the tablet", 2, 2), (found.Name, found.Notes, found.Version, found.CardVersion));
        Assert.Equal(1, await engines.CountAsync("two", Cancel));
        Assert.Equal(0, await engines.CountAsync("one", Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task SaveAsync_EightDevicesAtOnce_OneIsSavedAndSevenAreTold(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid id = await test.Bench.AddEngineAsync("One");
        SaveOutcome[] outcomes = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => test.Another().Engines.SaveAsync((id, 1, 1), $"From {n}", Card(), Details, "", cancel: Cancel), Cancel)));
        Assert.Equal(1, outcomes.Count(o => o == SaveOutcome.Saved));
        Assert.Equal(7, outcomes.Count(o => o == SaveOutcome.ChangedMeanwhile));
        Assert.Equal($"From {Array.IndexOf(outcomes, SaveOutcome.Saved)}", (await test.Bench.Engines.FindAsync(id, Cancel))?.Name);
    }

    [Theory]
    [OnEachBench]
    public async Task ListAsync_Search_FindsByPartsWithoutCaseAndAccentsAndTakesSignsAsTheyAre(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        string[] names = ["Étoile du Nord", "étoile 2", "100% rebuilt", "100 rebuilt", "a_b", "aXb", "back\\slash", "it's", "Zebra"];
        foreach (string name in names)
        {
            await test.Bench.AddEngineAsync(name);
        }

        async Task Finds(string search, params string[] expected)
        {
            Assert.Equal(expected, (await test.Bench.Engines.ListAsync(search, 0, 50, Cancel)).Select(e => e.Name));
            Assert.Equal(expected.Length, await test.Bench.Engines.CountAsync(search, Cancel));
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
    [OnEachBench]
    public async Task ListAsync_Pages_FollowOneAnother(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        foreach (int n in Enumerable.Range(10, 7))
        {
            await test.Bench.AddEngineAsync($"Engine {n}");
        }

        Assert.Equal(["Engine 13", "Engine 14", "Engine 15"], (await test.Bench.Engines.ListAsync(null, 3, 3, Cancel)).Select(e => e.Name));
        Assert.Equal(["Engine 16"], (await test.Bench.Engines.ListAsync("engine", 6, 3, Cancel)).Select(e => e.Name));
    }

    [Theory]
    [OnEachBench]
    public async Task ListAsync_EngineWithJobs_HasItsOpenOnesAndItsLastClock(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync("Busy");
        await test.Bench.AddEngineAsync("Idle");
        Guid closed = await test.Bench.StartJobAsync(engine);
        await test.Bench.SaveAsync(closed, new Shimwright.Jobs.Facts.CheckStated(150.5, 20), new Shimwright.Jobs.Facts.JobClosed(151, "", "", ""));
        await test.Bench.StartJobAsync(engine);
        IReadOnlyList<EngineSummary> list = await test.Bench.Engines.ListAsync(null, 0, 10, Cancel);
        Assert.Equal([("Busy", 1, 150.5), ("Idle", 0, null)], list.Select(e => (e.Name, e.OpenJobs, e.LastClock)));
    }
}
