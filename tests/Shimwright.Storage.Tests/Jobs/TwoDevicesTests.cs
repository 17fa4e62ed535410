using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.Jobs;

/// <summary>Two devices on one job: what adds up is put together, and nothing is overwritten unseen.</summary>
public class TwoDevicesTests
{
    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_ReadingsOfBoth_AreAllThere(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await Saved(database.Bench.SendAsync(job, "phone", 0, new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light")));
        await Saved(database.Another().SendAsync(job, "tablet", 0, new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light")));
        await Saved(database.Another().SendAsync(job, "tablet", 0, new ThicknessFound("E1", 2.5, "marked")));
        await Saved(database.Bench.SendAsync(job, "phone", 0, new ThicknessFound("E2", 2.5, "marked")));
        JobSheet sheet = (await database.Bench.FindJobAsync(job)).Sheet;
        Assert.Equal(2, sheet.Readings(SheetPart.Check, "I1").Count());
        Assert.Equal(["phone", "tablet", "tablet", "phone"], sheet.Entries.Select(e => e.Device));
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_OverAnUnseenThickness_IsRefusedWithWhatCameInBetween(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.SaveAsync(job, new JobNoted("seen by both"));
        await Saved(database.Bench.SendAsync(job, "phone", 1, new ThicknessFound("I1", 2.62, "micrometer")));
        AddResult result = await database.Another().SendAsync(job, "tablet", 1, new JobNoted("mine"), new ThicknessFound("I1", 2.60, "marked"));
        Assert.Equal(AddOutcome.Conflict, result.Outcome);
        JobEntry unseen = Assert.Single(result.Unseen);
        Assert.Equal((2, "phone", new ThicknessFound("I1", 2.62, "micrometer")), (unseen.Number, unseen.Device, unseen.Fact));
        Assert.Equal(2, (await database.Bench.FindJobAsync(job)).Sheet.Last);

        // Seen, it may be said.
        await Saved(database.Another().SendAsync(job, "tablet", 2, new ThicknessFound("I1", 2.60, "marked")));
        Assert.Equal(2.60, (await database.Bench.FindJobAsync(job)).Sheet.FoundAt("I1")?.Thickness);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_PlanAfterUnseenReadings_IsRefused(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.MeasureAsync(job);
        JobSheet seen = (await database.Bench.FindJobAsync(job)).Sheet;
        PlanAccepted plan = PlanOf(seen);
        Guid tap = Guid.NewGuid();
        await database.Bench.Jobs.AddAsync(job, new(tap, "tablet", seen.Last, [new BladeTried(SheetPart.Check, "I1", 0.13, 1, "firm")]), Cancel);
        AddResult result = await database.Bench.SendAsync(job, "phone", seen.Last, plan);
        Assert.Equal(AddOutcome.Conflict, result.Outcome);
        Assert.IsType<BladeTried>(Assert.Single(result.Unseen).Fact);
        Assert.Null((await database.Bench.FindJobAsync(job)).Sheet.Plan);

        // A reading that was taken back unseen changes the plan as well.
        seen = (await database.Bench.FindJobAsync(job)).Sheet;
        plan = PlanOf(seen);
        await Saved(database.Bench.SendAsync(job, "tablet", seen.Last, new Undone(tap)));
        Assert.Equal(AddOutcome.Conflict, (await database.Bench.SendAsync(job, "phone", seen.Last, plan)).Outcome);
        await Saved(database.Bench.SendAsync(job, "phone", seen.Last + 1, PlanOf((await database.Bench.FindJobAsync(job)).Sheet)));
        Assert.Equal(JobStage.Fit, (await database.Bench.FindJobAsync(job)).Summary.Stage);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_EightDevicesSayEightThicknessesAtOnce_OneIsSavedAndTheOthersAreAsked(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        AddResult[] results = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => database.Another().SendAsync(job, $"device {n}", 0, new ThicknessFound("I1", 2.5 + (n * 0.01), "marked")), Cancel)));
        Assert.Equal(1, results.Count(r => r.Outcome == AddOutcome.Saved));
        Assert.All(results.Where(r => r.Outcome != AddOutcome.Saved), r => Assert.Equal((AddOutcome.Conflict, 1), (r.Outcome, r.Unseen.Count)));
    }

    private static async Task Saved(Task<AddResult> adding)
    {
        AddResult result = await adding;
        Assert.True(result.Outcome == AddOutcome.Saved, $"{result.Outcome}: {string.Join('\n', result.Problems)}");
    }
}
