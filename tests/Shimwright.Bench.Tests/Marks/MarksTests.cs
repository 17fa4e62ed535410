using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Marks;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Marks;

public class MarksTests
{
    [Theory]
    [OnEachBench]
    public async Task ListAsync_JobsOfEveryKind_GivesThoseThatKnowBothTheNewestFirst(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Assert.Empty(await test.Bench.Marks.ListAsync(Cancel));
        Guid first = await test.Bench.StartJobAsync(await test.Bench.AddEngineAsync("First"));
        await test.Bench.SaveAsync(first, new ThicknessFound("I1", 2.5, "marked"), new ThicknessFound("I1", 2.494, "micrometer"), new ThicknessFound("E1", 2.5, "marked"));
        await test.Bench.MeasureAsync(await test.Bench.StartJobAsync(await test.Bench.AddEngineAsync("Measured only")));
        test.Time.Pass(TimeSpan.FromDays(1));
        Guid second = await test.Bench.StartJobAsync(await test.Bench.AddEngineAsync("Second"));
        await test.Bench.SaveAsync(second, new ThicknessFound("E2", 2.75, "micrometer"));
        await test.Bench.SaveAsync(second, new ThicknessFound("E2", 2.75, "marked"), new ThicknessFound("I1", 2.6, "marked"));
        IReadOnlyList<JobMark> marks = await test.Another().Marks.ListAsync(Cancel);
        Assert.Equal([((Guid?)second, "Second", new MarkedShim("E2", 2.75, 2.75)), (first, "First", new MarkedShim("I1", 2.5, 2.494))], marks.Select(m => (m.Job, m.Engine, m.Shim)));
        await test.Bench.SaveAsync(second, new Undone((await test.Bench.FindJobAsync(second)).Sheet.Entries[^1].Action));
        Assert.Equal<Guid?>([first], (await test.Bench.Marks.ListAsync(Cancel)).Select(m => m.Job));
    }

    [Theory]
    [OnEachBench]
    public async Task MeasureAsync_OneOfTheDrawer_GoesToItsSizeAndBackWithOneUndoing(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        ShimSize marked = ShimSize.Of(9.48, 2.45, "marked"), measured = ShimSize.Of(9.48, 2.443, "micrometer");
        await drawer.AddAsync(new(marked, 2, "B4"), Stamp(), Cancel);
        DrawerStamp tap = Stamp();
        Assert.Equal(AddOutcome.Saved, (await drawer.MeasureAsync(marked, 2.443, "B4", tap, Cancel)).Outcome);
        Assert.Equal(AddOutcome.SavedBefore, (await drawer.MeasureAsync(marked, 2.443, "B4", tap, Cancel)).Outcome);
        Assert.Equal([new ShimLot(measured, 1, 0, 0, "B4", null, 3), new ShimLot(marked, 1, 0, 0, "B4", null, 2)], await drawer.LotsAsync(Cancel));
        JobMark mark = Assert.Single(await test.Bench.Marks.ListAsync(Cancel));
        Assert.Equal((null, new MarkedShim("", 2.45, 2.443)), (mark.Job, mark.Shim));

        int entry = (await drawer.HistoryAsync(measured, Cancel))[0].Number;
        Assert.True((await drawer.UndoAsync(entry, Stamp(), Cancel)).IsSaved);
        Assert.Equal([(2443, 0), (2450, 2)], (await drawer.LotsAsync(Cancel)).Select(l => (l.Size.Thickness, l.Count)));
        Assert.Empty(await test.Bench.Marks.ListAsync(Cancel));
        Assert.Contains("taken back already", (await drawer.UndoAsync(entry - 1, Stamp(), Cancel)).Problems[0].Found, StringComparison.Ordinal);
        Assert.All(await drawer.HistoryAsync(marked, Cancel), m => Assert.True(m.Number == 1 || !m.CanBeUndone));
    }

    [Theory]
    [OnEachBench]
    public async Task MeasureAsync_WhatCannotBe_IsRefusedAndChangesNothing(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IDrawer drawer = test.Bench.Drawer;
        ShimSize marked = ShimSize.Of(9.48, 2.45, "marked");
        Assert.Contains("is free", (await drawer.MeasureAsync(marked, 2.45, null, Stamp(), Cancel)).Problems[0].Found, StringComparison.Ordinal);
        await drawer.AddAsync(new(marked, 1), Stamp(), Cancel);
        await drawer.AddAsync(new(marked with { By = "calliper" }, 1), Stamp(), Cancel);
        Assert.Contains("another shim", (await drawer.MeasureAsync(marked, 2.50, null, Stamp(), Cancel)).Problems[0].Allowed, StringComparison.Ordinal);
        Assert.Contains("allowed is", (await drawer.MeasureAsync(marked, 0.1, null, Stamp(), Cancel)).Problems[0].Allowed, StringComparison.Ordinal);
        Assert.False((await drawer.MeasureAsync(marked with { By = "calliper" }, 2.45, null, Stamp(), Cancel)).IsSaved);
        Assert.True((await drawer.MeasureAsync(marked, 2.447, null, Stamp(), Cancel)).IsSaved);
        Assert.False((await drawer.MeasureAsync(marked, 2.447, null, Stamp(), Cancel)).IsSaved);
        await drawer.CountAsync([new(ShimSize.Of(9.48, 2.447, "micrometer"), 0)], Stamp(), Cancel);
        int entry = (await drawer.HistoryAsync(marked, Cancel))[0].Number;
        Assert.Contains("used since", (await drawer.UndoAsync(entry, Stamp(), Cancel)).Problems[0].Found, StringComparison.Ordinal);
    }

    private static DrawerStamp Stamp() => new(Guid.NewGuid(), "phone");
}
