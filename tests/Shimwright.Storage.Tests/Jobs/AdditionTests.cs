using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.Jobs;

public class AdditionTests
{
    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_Facts_AreFoundInOrderWithWhereTheyComeFrom(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        Guid first = Guid.NewGuid(), second = Guid.NewGuid();
        await database.Bench.Jobs.AddAsync(job, new(first, "phone", 0, [new JobNoted("one"), new JobNoted("two")]), Cancel);
        database.Time.Pass(TimeSpan.FromTicks(12_345_678_901));
        await database.Bench.Jobs.AddAsync(job, new(second, "tablet é", 2, [new JobNoted("three\0")]), Cancel);
        DateTime start = new(2026, 3, 1, 8, 0, 0, DateTimeKind.Utc);
        StoredJob found = await database.Another().FindJobAsync(job);
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
    [OnEachDatabase]
    public async Task AddAsync_SameActionTwice_CountsOnce(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        Addition tap = new(Guid.NewGuid(), "phone", 0, [new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light")]);
        Assert.Equal(AddOutcome.Saved, (await database.Bench.Jobs.AddAsync(job, tap, Cancel)).Outcome);
        AddResult again = await database.Bench.Jobs.AddAsync(job, tap, Cancel);
        Assert.Equal(AddOutcome.SavedBefore, again.Outcome);
        Assert.True(again.IsSaved);
        Assert.Single((await database.Bench.FindJobAsync(job)).Sheet.Entries);

        // Taken back, and then the network sends it a third time: it stays taken back.
        await database.Bench.SaveAsync(job, new Undone(tap.Action));
        Assert.Equal(AddOutcome.SavedBefore, (await database.Bench.Jobs.AddAsync(job, tap, Cancel)).Outcome);
        Assert.Empty((await database.Bench.FindJobAsync(job)).Sheet.InForce);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_SameActionFromEightTasksAtOnce_CountsOnce(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        Addition tap = new(Guid.NewGuid(), "phone", 0, [new JobNoted("one"), new JobNoted("two")]);
        AddResult[] results = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => database.Another().Jobs.AddAsync(job, tap, Cancel), Cancel)));
        Assert.Equal(1, results.Count(r => r.Outcome == AddOutcome.Saved));
        Assert.Equal(7, results.Count(r => r.Outcome == AddOutcome.SavedBefore));
        Assert.Equal([1, 2], (await database.Bench.FindJobAsync(job)).Sheet.Entries.Select(e => e.Number));
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_EightWritersOfTwentyFiveFacts_LosesNoneAndHasNoneTwice(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await Task.WhenAll(Enumerable.Range(0, 8).Select(writer => Task.Run(
            async () =>
            {
                BenchDatabase own = database.Another();
                for (int n = 0; n < 25; n++)
                {
                    AddResult result = await own.SendAsync(job, $"device {writer}", 0, new JobNoted($"{writer}/{n}"));
                    Assert.Equal(AddOutcome.Saved, result.Outcome);
                }
            },
            Cancel)));
        StoredJob found = await database.Bench.FindJobAsync(job);
        Assert.Equal(Enumerable.Range(1, 200), found.Sheet.Entries.Select(e => e.Number));
        Assert.Equal(200, found.Sheet.Entries.Select(e => e.Action).Distinct().Count());
        for (int writer = 0; writer < 8; writer++)
        {
            // Those of one writer stand in its order.
            Assert.Equal(
                Enumerable.Range(0, 25).Select(n => $"{writer}/{n}"),
                found.Sheet.Entries.Where(e => e.Device == $"device {writer}").Select(e => ((JobNoted)e.Fact).Text));
        }

        await using BenchContext context = database.Bench.NewContext();
        Assert.Equal(200, await context.Facts.CountAsync(Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_WrongFactAmongRightOnes_AddsNone(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        AddResult result = await database.Bench.SendAsync(job, "phone", 0, new JobNoted("right"), new ThicknessFound("I1", 262, "marked"), new ThicknessFound("X9", 2.6, "marked"));
        Assert.Equal(AddOutcome.Refused, result.Outcome);
        Assert.Contains(result.Problems, p => p.ToString().Contains("2.62 meant?", StringComparison.Ordinal));
        Assert.Contains(result.Problems, p => p.ToString().Contains("X9", StringComparison.Ordinal));
        Assert.Empty((await database.Bench.FindJobAsync(job)).Sheet.Entries);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_NothingOrAnEndlessDeviceOrNoAction_IsRefused(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        Assert.Equal("facts", (await database.Bench.SendAsync(job, "phone", 0)).Problems.Single().Path);
        Assert.Equal("device", (await database.Bench.SendAsync(job, new string('x', 201), 0, new JobNoted("x"))).Problems.Single().Path);
        Assert.Equal("device", (await database.Bench.SendAsync(job, "nul\0", 0, new JobNoted("x"))).Problems.Single().Path);
        await Assert.ThrowsAsync<ArgumentException>(() => database.Bench.Jobs.AddAsync(job, new(Guid.Empty, "phone", 0, [new JobNoted("x")]), Cancel));
        Assert.Equal(AddOutcome.NoSuchJob, (await database.Bench.SendAsync(Guid.NewGuid(), "phone", 0, new JobNoted("x"))).Outcome);
        Assert.Empty((await database.Bench.FindJobAsync(job)).Sheet.Entries);
    }

    [Theory]
    [OnEachDatabase]
    public async Task AddAsync_SaveThatFailsForAnotherReason_IsNotTriedAgain(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Database.ExecuteSqlRawAsync(
                kind == DatabaseKind.Sqlite
                    ? "CREATE TRIGGER full_disk BEFORE INSERT ON facts BEGIN SELECT RAISE(ABORT, 'the disk is full'); END"
                    : """
                      CREATE FUNCTION full_disk() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'the disk is full'; END $$;
                      CREATE TRIGGER full_disk BEFORE INSERT ON facts FOR EACH ROW EXECUTE FUNCTION full_disk()
                      """,
                Cancel);
        }

        // Each try would fail once.
        using CommandErrors errors = new();
        await Assert.ThrowsAsync<DbUpdateException>(() => database.Bench.SendAsync(job, "phone", 0, new JobNoted("x")));
        Assert.Equal(1, errors.Count);
    }
}
