using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Jobs;

/// <summary>Two devices on one job: what adds up is put together, and nothing is overwritten unseen.</summary>
public class TwoDevicesTests
{
    [Theory]
    [OnEachBench]
    public async Task AddAsync_ReadingsOfBoth_AreAllThere(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        await Saved(test.Bench.SendAsync(job, "phone", 0, new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light")));
        await Saved(test.Another().SendAsync(job, "tablet", 0, new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light")));
        await Saved(test.Another().SendAsync(job, "tablet", 0, new ThicknessFound("E1", 2.5, "marked")));
        await Saved(test.Bench.SendAsync(job, "phone", 0, new ThicknessFound("E2", 2.5, "marked")));
        JobSheet sheet = (await test.Bench.FindJobAsync(job)).Sheet;
        Assert.Equal(2, sheet.Readings(SheetPart.Check, "I1").Count());
        Assert.Equal(["phone", "tablet", "tablet", "phone"], sheet.Entries.Select(e => e.Device));
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_OverAnUnseenThickness_IsRefusedWithWhatCameInBetween(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        await test.Bench.SaveAsync(job, new JobNoted("seen by both"));
        await Saved(test.Bench.SendAsync(job, "phone", 1, new ThicknessFound("I1", 2.62, "micrometer")));
        AddResult result = await test.Another().SendAsync(job, "tablet", 1, new JobNoted("mine"), new ThicknessFound("I1", 2.60, "marked"));
        Assert.Equal(AddOutcome.Conflict, result.Outcome);
        JobEntry unseen = Assert.Single(result.Unseen);
        Assert.Equal((2, "phone", new ThicknessFound("I1", 2.62, "micrometer")), (unseen.Number, unseen.Device, unseen.Fact));
        Assert.Equal(2, (await test.Bench.FindJobAsync(job)).Sheet.Last);

        // Seen, it may be said.
        await Saved(test.Another().SendAsync(job, "tablet", 2, new ThicknessFound("I1", 2.60, "marked")));
        Assert.Equal(2.60, (await test.Bench.FindJobAsync(job)).Sheet.FoundAt("I1")?.Thickness);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_PlanAfterUnseenReadings_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        await test.Bench.MeasureAsync(job);
        JobSheet seen = (await test.Bench.FindJobAsync(job)).Sheet;
        PlanAccepted plan = PlanOf(seen);
        Guid tap = Guid.NewGuid();
        await test.Bench.Jobs.AddAsync(job, new(tap, "tablet", seen.Last, [new BladeTried(SheetPart.Check, "I1", 0.13, 1, "firm")]), Cancel);
        AddResult result = await test.Bench.SendAsync(job, "phone", seen.Last, plan);
        Assert.Equal(AddOutcome.Conflict, result.Outcome);
        Assert.IsType<BladeTried>(Assert.Single(result.Unseen).Fact);
        Assert.Null((await test.Bench.FindJobAsync(job)).Sheet.Plan);

        // A reading that was taken back unseen changes the plan as well.
        seen = (await test.Bench.FindJobAsync(job)).Sheet;
        plan = PlanOf(seen);
        await Saved(test.Bench.SendAsync(job, "tablet", seen.Last, new Undone(tap)));
        Assert.Equal(AddOutcome.Conflict, (await test.Bench.SendAsync(job, "phone", seen.Last, plan)).Outcome);
        await Saved(test.Bench.SendAsync(job, "phone", seen.Last + 1, PlanOf((await test.Bench.FindJobAsync(job)).Sheet)));
        Assert.Equal(JobStage.Fit, (await test.Bench.FindJobAsync(job)).Summary.Stage);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_EightDevicesSayEightThicknessesAtOnce_OneIsSavedAndTheOthersAreAsked(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        AddResult[] results = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => test.Another().SendAsync(job, $"device {n}", 0, new ThicknessFound("I1", 2.5 + (n * 0.01), "marked")), Cancel)));
        Assert.Equal(1, results.Count(r => r.Outcome == AddOutcome.Saved));
        Assert.All(results.Where(r => r.Outcome != AddOutcome.Saved), r => Assert.Equal((AddOutcome.Conflict, 1), (r.Outcome, r.Unseen.Count)));
    }

    private static async Task Saved(Task<AddResult> adding)
    {
        AddResult result = await adding;
        Assert.True(result.Outcome == AddOutcome.Saved, $"{result.Outcome}: {string.Join('\n', result.Problems)}");
    }
}
