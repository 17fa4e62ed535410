using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Jobs;

public class AdditionTests
{
    [Theory]
    [OnEachBench]
    public async Task AddAsync_Facts_AreFoundInOrderWithWhereTheyComeFrom(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        Guid first = Guid.NewGuid(), second = Guid.NewGuid();
        await test.Bench.Jobs.AddAsync(job, new(first, "phone", 0, [new JobNoted("one"), new JobNoted("two")]), Cancel);
        test.Time.Pass(TimeSpan.FromTicks(12_345_678_901));
        await test.Bench.Jobs.AddAsync(job, new(second, "tablet é", 2, [new JobNoted("three\0")]), Cancel);
        DateTime start = new(2026, 3, 1, 8, 0, 0, DateTimeKind.Utc);
        StoredJob found = await test.Another().FindJobAsync(job);
        Assert.Equal(
            [
                new(1, first, "phone", start, new JobNoted("one")), new(2, first, "phone", start, new JobNoted("two")),
                new JobEntry(3, second, "tablet é", start.AddTicks(12_345_678_901), new JobNoted("three\0")),
            ],
            found.Sheet.Entries);
        Assert.All(found.Sheet.Entries, e => Assert.Equal(DateTimeKind.Utc, e.At.Kind));
        Assert.Equal(start.AddTicks(12_345_678_901), found.Summary.ChangedAt);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_SameActionTwice_CountsOnce(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        Addition tap = new(Guid.NewGuid(), "phone", 0, [new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light")]);
        Assert.Equal(AddOutcome.Saved, (await test.Bench.Jobs.AddAsync(job, tap, Cancel)).Outcome);
        AddResult again = await test.Bench.Jobs.AddAsync(job, tap, Cancel);
        Assert.Equal(AddOutcome.SavedBefore, again.Outcome);
        Assert.True(again.IsSaved);
        Assert.Single((await test.Bench.FindJobAsync(job)).Sheet.Entries);

        // Taken back, and then the network sends it a third time: it stays taken back.
        await test.Bench.SaveAsync(job, new Undone(tap.Action));
        Assert.Equal(AddOutcome.SavedBefore, (await test.Bench.Jobs.AddAsync(job, tap, Cancel)).Outcome);
        Assert.Empty((await test.Bench.FindJobAsync(job)).Sheet.InForce);
    }

    /// <summary>A program that used an action for something else was told that it was saved, and it was not.</summary>
    [Theory]
    [OnEachBench]
    public async Task AddAsync_SameActionWithOtherContent_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        Addition tap = new(Guid.NewGuid(), "phone", 0, [new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light")]);
        Assert.True((await test.Bench.Jobs.AddAsync(job, tap, Cancel)).IsSaved);
        foreach (JobFact[] other in new JobFact[][] { [new BladeTried(SheetPart.Check, "I1", 0.15, 1, "light")], [.. tap.Facts, .. tap.Facts], [new JobNoted("one")] })
        {
            AddResult again = await test.Bench.Jobs.AddAsync(job, tap with { Facts = other }, Cancel);
            Assert.False(again.IsSaved);
            Assert.Equal("this was sent before with different content", Assert.Single(again.Problems).Found);
        }

        Assert.Single((await test.Bench.FindJobAsync(job)).Sheet.Entries);
    }

    /// <summary>Each fact is judged with those before it: a job that this closes takes no reading.</summary>
    [Theory]
    [OnEachBench]
    public async Task AddAsync_AReadingBehindTheClosing_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        AddResult refused = await test.Bench.SendAsync(job, "phone", 0, new JobClosed(119, "", "", ""), new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01));
        Assert.Equal(AddOutcome.Refused, refused.Outcome);
        Assert.Equal("the job is closed", Assert.Single(refused.Problems).Found);
        Assert.Empty((await test.Bench.FindJobAsync(job)).Sheet.Entries);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_SameActionFromEightTasksAtOnce_CountsOnce(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        Addition tap = new(Guid.NewGuid(), "phone", 0, [new JobNoted("one"), new JobNoted("two")]);
        AddResult[] results = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => test.Another().Jobs.AddAsync(job, tap, Cancel), Cancel)));
        Assert.Equal(1, results.Count(r => r.Outcome == AddOutcome.Saved));
        Assert.Equal(7, results.Count(r => r.Outcome == AddOutcome.SavedBefore));
        Assert.Equal([1, 2], (await test.Bench.FindJobAsync(job)).Sheet.Entries.Select(e => e.Number));
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_EightWritersOfTwentyFiveFacts_LosesNoneAndHasNoneTwice(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        await Task.WhenAll(Enumerable.Range(0, 8).Select(writer => Task.Run(
            async () =>
            {
                IBench own = test.Another();
                for (int n = 0; n < 25; n++)
                {
                    AddResult result = await own.SendAsync(job, $"device {writer}", 0, new JobNoted($"{writer}/{n}"));
                    Assert.Equal(AddOutcome.Saved, result.Outcome);
                }
            },
            Cancel)));
        StoredJob found = await test.Bench.FindJobAsync(job);
        Assert.Equal(Enumerable.Range(1, 200), found.Sheet.Entries.Select(e => e.Number));
        Assert.Equal(200, found.Sheet.Entries.Select(e => e.Action).Distinct().Count());
        for (int writer = 0; writer < 8; writer++)
        {
            // Those of one writer stand in its order.
            Assert.Equal(
                Enumerable.Range(0, 25).Select(n => $"{writer}/{n}"),
                found.Sheet.Entries.Where(e => e.Device == $"device {writer}").Select(e => ((JobNoted)e.Fact).Text));
        }
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_WrongFactAmongRightOnes_AddsNone(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        AddResult result = await test.Bench.SendAsync(job, "phone", 0, new JobNoted("right"), new ThicknessFound("I1", 262, "marked"), new ThicknessFound("X9", 2.6, "marked"));
        Assert.Equal(AddOutcome.Refused, result.Outcome);
        Assert.Contains(result.Problems, p => p.ToString().Contains("2.62 meant?", StringComparison.Ordinal));
        Assert.Contains(result.Problems, p => p.ToString().Contains("X9", StringComparison.Ordinal));
        Assert.Empty((await test.Bench.FindJobAsync(job)).Sheet.Entries);
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_NothingOrAnEndlessDeviceOrNoAction_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        Assert.Equal("facts", (await test.Bench.SendAsync(job, "phone", 0)).Problems.Single().Path);
        Assert.Equal("device", (await test.Bench.SendAsync(job, new string('x', 201), 0, new JobNoted("x"))).Problems.Single().Path);
        Assert.Equal("device", (await test.Bench.SendAsync(job, "nul\0", 0, new JobNoted("x"))).Problems.Single().Path);
        await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Jobs.AddAsync(job, new(Guid.Empty, "phone", 0, [new JobNoted("x")]), Cancel));
        Assert.Equal(AddOutcome.NoSuchJob, (await test.Bench.SendAsync(Guid.NewGuid(), "phone", 0, new JobNoted("x"))).Outcome);
        Assert.Empty((await test.Bench.FindJobAsync(job)).Sheet.Entries);
    }

}
