using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Drawer;

public class DrawerTests
{
    private static readonly ShimSize Size = ShimSize.Of(9.48, 2.45, "micrometer");

    [Theory]
    [OnEachBench]
    public async Task AddAsync_TwiceThenCounted_CountsAreTheSumsOfTheirEntries(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        Assert.Empty(await drawer.LotsAsync(Cancel));
        await SaveAsync(drawer.AddAsync(new(Size, 3, "B4", 7.5), Stamp(), Cancel));
        await SaveAsync(drawer.AddAsync(new(Size, 2), Stamp(), Cancel));
        await SaveAsync(drawer.CountAsync([new(Size, 4, "B5"), new(ShimSize.Of(9.48, 2.5, "marked"), 1)], Stamp(), Cancel));
        IReadOnlyList<ShimLot> lots = await test.Another().Drawer.LotsAsync(Cancel);
        Assert.Equal([new ShimLot(Size, 4, 0, 0, "B5", 7.5, 3), new ShimLot(ShimSize.Of(9.48, 2.5, "marked"), 1, 0, 0, "", null, 4)], lots);
        IReadOnlyList<DrawerMove> history = await drawer.HistoryAsync(Size, Cancel);
        Assert.Equal([(-1, 4, ShimReason.Stocktake), (2, 5, ShimReason.Bought), (3, 3, ShimReason.Bought)], history.Select(m => (m.Change, m.After, m.Reason)));
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_SameActionFromEightTasksAtOnce_CountsOnce(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        DrawerStamp tap = Stamp();
        DrawerResult[] results = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => test.Another().Drawer.AddAsync(new(Size, 2), tap, Cancel), Cancel)));
        Assert.Equal(1, results.Count(r => r.Outcome == AddOutcome.Saved));
        Assert.Equal(7, results.Count(r => r.Outcome == AddOutcome.SavedBefore));
        Assert.Equal(2, Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Count);
    }

    /// <summary>What a page had seen decides, not who sends it: a second tab of one browser overwrote what the first had counted.</summary>
    [Theory]
    [OnEachBench]
    public async Task CountAsync_SizeThatWasCountedSincePageWasLoaded_IsNotOverwrittenUnseen(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        ShimSize other = ShimSize.Of(9.48, 2.5, "marked");
        await SaveAsync(drawer.AddAsync(new(Size, 5, "B4"), Stamp(), Cancel));
        int seen = (await drawer.LotsAsync(Cancel))[0].Newest;
        await SaveAsync(drawer.AddAsync(new(other, 1), Stamp(), Cancel));
        await SaveAsync(drawer.CountAsync([new(Size, 4)], Stamp() with { Seen = seen }, Cancel));
        DrawerResult late = await drawer.CountAsync([new(Size, 5, "C9")], Stamp() with { Seen = seen }, Cancel);
        Assert.Equal(AddOutcome.Conflict, late.Outcome);
        Assert.Contains("there are 4 now", late.Problems[0].Found, StringComparison.Ordinal);
        Assert.Equal(new ShimLot(Size, 4, 0, 0, "B4", null, 3), (await drawer.LotsAsync(Cancel))[0]);
        await SaveAsync(drawer.CountAsync([new(Size, 5, "C9")], Stamp() with { Seen = 3 }, Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task AnyAsync_ActionThatSaidSomethingElseBefore_IsToldSo(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        DrawerStamp put = Stamp(), count = Stamp();
        await SaveAsync(drawer.AddAsync(new(Size, 5, "B4"), put, Cancel));
        await SaveAsync(drawer.CountAsync([new(Size, 3)], count, Cancel));
        await SaveAsync(drawer.AddAsync(new(Size, 2), Stamp(), Cancel));
        Assert.Equal(AddOutcome.SavedBefore, (await drawer.AddAsync(new(Size, 5, "B4"), put, Cancel)).Outcome);
        Assert.Equal(AddOutcome.SavedBefore, (await drawer.CountAsync([new(Size, 3)], count, Cancel)).Outcome);
        Assert.Equal(AddOutcome.Reused, (await drawer.AddAsync(new(Size, 6, "B4"), put, Cancel)).Outcome);
        Assert.Equal(AddOutcome.Reused, (await drawer.AddAsync(new(Size, 5, "B5"), put, Cancel)).Outcome);
        Assert.Equal(AddOutcome.Reused, (await drawer.CountAsync([new(Size, 4)], count, Cancel)).Outcome);
        Assert.Equal(5, (await drawer.LotsAsync(Cancel))[0].Count);
    }

    [Theory]
    [OnEachBench]
    public async Task UndoAsync_Entry_IsAnEntryOfItsOwnAndTakesItsPlaceBack(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        await SaveAsync(drawer.AddAsync(new(Size, 3, "B4"), Stamp(), Cancel));
        await SaveAsync(drawer.AddAsync(new(Size, 5, "C1"), Stamp(), Cancel));
        int wrong = (await drawer.HistoryAsync(Size, Cancel))[0].Number;
        await SaveAsync(drawer.UndoAsync(wrong, Stamp(), Cancel));
        Assert.Equal(new ShimLot(Size, 3, 0, 0, "B4", null, 3), Assert.Single(await drawer.LotsAsync(Cancel)));
        IReadOnlyList<DrawerMove> history = await drawer.HistoryAsync(Size, Cancel);
        Assert.Equal([-5, 5, 3], history.Select(m => m.Change));
        Assert.Equal([false, false, true], history.Select(m => m.CanBeUndone));
        DrawerResult again = await drawer.UndoAsync(wrong, Stamp(), Cancel);
        Assert.Equal(AddOutcome.Refused, again.Outcome);
        Assert.Contains("taken back already", again.Problems[0].Found, StringComparison.Ordinal);
        Assert.Contains("took another one back", (await drawer.UndoAsync(history[0].Number, Stamp(), Cancel)).Problems[0].Found, StringComparison.Ordinal);
    }

    [Theory]
    [OnEachBench]
    public async Task UndoAsync_WhereNothingWouldBeLeft_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        await SaveAsync(drawer.AddAsync(new(Size, 3), Stamp(), Cancel));
        await SaveAsync(drawer.CountAsync([new(Size, 1)], Stamp(), Cancel));
        DrawerResult refused = await drawer.UndoAsync(1, Stamp(), Cancel);
        Assert.Equal(AddOutcome.Refused, refused.Outcome);
        Assert.Contains("there would be -2 of them", refused.Problems[0].Found, StringComparison.Ordinal);
        Assert.Equal(1, Assert.Single(await drawer.LotsAsync(Cancel)).Count);
    }

    [Theory]
    [OnEachBench]
    public async Task MeasureAsync_ShimKnownByItsMark_IsOneUnderItsSizeUntilThatIsTakenBack(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        ShimSize marked = ShimSize.Of(9.48, 2.5, "marked"), measured = ShimSize.Of(9.48, 2.487, "micrometer");
        await SaveAsync(drawer.AddAsync(new(marked, 2), Stamp(), Cancel));
        await SaveAsync(drawer.MeasureAsync(marked, 2.487, "B4", Stamp(), Cancel));
        Assert.Equal([new ShimLot(measured, 1, 0, 0, "B4", null, 3), new ShimLot(marked, 1, 0, 0, "", null, 2)], await drawer.LotsAsync(Cancel));
        await SaveAsync(drawer.UndoAsync((await drawer.HistoryAsync(measured, Cancel))[0].Number, Stamp(), Cancel));
        Assert.Equal([0, 2], (await drawer.LotsAsync(Cancel)).Select(l => l.Count));
    }

    /// <summary>Whoever reads a tenth off the mark holds another shim, or has misread.</summary>
    [Theory]
    [OnEachBench]
    public async Task MeasureAsync_FarFromTheMark_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        ShimSize marked = ShimSize.Of(9.48, 2.5, "marked");
        await SaveAsync(test.Bench.Drawer.AddAsync(new(marked, 1), Stamp(), Cancel));
        DrawerResult refused = await test.Bench.Drawer.MeasureAsync(marked, 2.4, null, Stamp(), Cancel);
        Assert.Equal((AddOutcome.Refused, "thickness"), (refused.Outcome, Assert.Single(refused.Problems).Path));
        Assert.Equal(new ShimLot(marked, 1, 0, 0, "", null, 1), Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)));
    }

    [Theory]
    [InlineData(9.48, 2.45, "ruler", 1, "by")]
    [InlineData(0.5, 2.45, "marked", 1, "diameter")]
    [InlineData(9.48, 45, "marked", 1, "thickness")]
    [InlineData(9.48, 2.45, "marked", 0, "count")]
    [InlineData(9.48, 2.45, "marked", 10_001, "count")]
    public async Task AddAsync_WhatCannotBe_IsRefusedWithItsField(double diameter, double thickness, string by, int count, string path)
    {
        await using TestBench test = await TestBench.OfAsync(BenchKind.Memory);
        DrawerResult result = await test.Bench.Drawer.AddAsync(new(ShimSize.Of(diameter, thickness, by), count), Stamp(), Cancel);
        Assert.Equal(AddOutcome.Refused, result.Outcome);
        Assert.Equal(path, Assert.Single(result.Problems).Path);
        Assert.Empty(await test.Bench.Drawer.LotsAsync(Cancel));
    }

    /// <summary>Whatever six hands do at once, in any order: no count is below nothing, and each is what its entries say.</summary>
    [Theory]
    [OnEachBench]
    public async Task Ledger_SixHandsAtOnce_BalancesAndIsNeverBelowNothing(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        ShimSize[] sizes = [.. Enumerable.Range(0, 3).Select(n => ShimSize.Of(9.48, 2.4 + (n * 0.05), "marked"))];
        await Task.WhenAll(Enumerable.Range(0, 6).Select(hand => Task.Run(
            async () =>
            {
                var chance = new Random(hand);
                IDrawer drawer = test.Another().Drawer;
                for (int n = 0; n < 15; n++)
                {
                    ShimSize size = sizes[chance.Next(sizes.Length)];
                    DrawerResult result = chance.Next(3) switch
                    {
                        0 => await drawer.AddAsync(new(size, chance.Next(1, 5)), Stamp(), Cancel),
                        1 => await drawer.CountAsync([new(size, chance.Next(0, 6))], Stamp(), Cancel),
                        _ => await drawer.UndoAsync(chance.Next(1, 40), Stamp(), Cancel),
                    };
                    Assert.True(result.Outcome is AddOutcome.Saved or AddOutcome.Refused);
                }
            },
            Cancel)));
        foreach (ShimLot lot in await test.Bench.Drawer.LotsAsync(Cancel))
        {
            IReadOnlyList<DrawerMove> history = await test.Bench.Drawer.HistoryAsync(lot.Size, Cancel);
            Assert.Equal(lot.Count, history.Sum(m => m.Change));
            Assert.All(history, m => Assert.InRange(m.After, 0, DrawerRules.MostCount));
            Assert.All(history.Where(m => m.Undoes is not null), m => Assert.Equal(-history.Single(o => o.Number == m.Undoes).Change, m.Change));
        }
    }

    internal static DrawerStamp Stamp() => new(Guid.NewGuid(), "phone");

    internal static async Task SaveAsync(Task<DrawerResult> doing)
    {
        DrawerResult result = await doing;
        Assert.True(result.Outcome == AddOutcome.Saved, $"{result.Outcome}: {string.Join('\n', result.Problems)}");
    }
}
