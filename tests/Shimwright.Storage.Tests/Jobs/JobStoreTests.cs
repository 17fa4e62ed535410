using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Closing;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.Jobs;

public class JobStoreTests
{
    [Theory]
    [OnEachDatabase]
    public async Task StartAsync_SameActionFromEightTasks_StartsOneJob(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync(), action = Guid.NewGuid();
        Guid[] jobs = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(
            () => database.Another().Jobs.StartAsync(engine, Setup(), [new JobNoted("hello")], action, "phone", Cancel), Cancel)));
        Assert.Single(jobs.Distinct());
        Assert.Equal(1, await database.Bench.Jobs.CountOpenAsync(Cancel));
        Assert.Single((await database.Bench.FindJobAsync(jobs[0])).Sheet.Entries);
    }

    [Theory]
    [OnEachDatabase]
    public async Task StartAsync_JobFileTakenIn_GivesTheSamePlan(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        foreach (string file in (string[])["02-worn-four.json", "06-plant-engine-screws.json"])
        {
            ParsedSetup taken = ImportedJob(file);
            Guid job = await database.Bench.Jobs.StartAsync(await database.Bench.AddEngineAsync(file), taken.Setup!, taken.Facts, Guid.NewGuid(), "phone", Cancel);
            JobSheet sheet = (await database.Another().FindJobAsync(job)).Sheet;
            Assert.Equal(
                ResultJson.Write(PlanResult.Of(JobFile.Read(System.Text.Encoding.UTF8.GetBytes(Demo(file)), JobPurpose.Plan).Job!), indented: true),
                ResultJson.Write(PlanResult.Of(JobSheetFile.Read(sheet, JobPurpose.Plan).Job!), indented: true));
        }
    }

    [Theory]
    [OnEachDatabase]
    public async Task StartAsync_FactsThatDoNotBelong_Throws(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync();
        await Assert.ThrowsAsync<ArgumentException>(() => database.Bench.Jobs.StartAsync(engine, Setup(), [new ThicknessFound("I1", 262, "marked")], Guid.NewGuid(), "phone", Cancel));
        await Assert.ThrowsAsync<ArgumentException>(() => database.Bench.Jobs.StartAsync(engine, Setup(), [], Guid.Empty, "phone", Cancel));
        Assert.Equal(0, await database.Bench.Jobs.CountOpenAsync(Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_NoSuchJob_IsNull(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Assert.Null(await database.Bench.Jobs.FindAsync(Guid.NewGuid(), Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_WhileOthersWrite_HasAWholeSheetEveryTime(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        Task writing = Task.Run(
            async () =>
            {
                for (int n = 0; n < 40; n++)
                {
                    await database.Bench.SendAsync(job, "phone", 0, new JobNoted("a"), new JobNoted("b"), new JobNoted("c"));
                }
            },
            Cancel);
        int looks = 0;
        for (; !writing.IsCompleted; looks++)
        {
            StoredJob found = await database.Another().FindJobAsync(job);
            Assert.Equal(0, found.Sheet.Last % 3);
            Assert.Equal(Enumerable.Range(1, found.Sheet.Last), found.Sheet.Entries.Select(e => e.Number));
        }

        await writing;
        Assert.True(looks > 0);
        Assert.Equal(120, (await database.Bench.FindJobAsync(job)).Sheet.Last);
    }

    [Theory]
    [OnEachDatabase]
    public async Task Lists_OfJobs_SortByTimeAlikeOnEveryDatabase(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync("Busy");
        List<Guid> jobs = [];
        foreach (TimeSpan pause in (TimeSpan[])[TimeSpan.Zero, TimeSpan.FromTicks(1), TimeSpan.FromMilliseconds(1), TimeSpan.FromDays(400), TimeSpan.FromTicks(1)])
        {
            database.Time.Pass(pause);
            jobs.Add(await database.Bench.StartJobAsync(engine));
        }

        Assert.Equal(Enumerable.Reverse(jobs), (await database.Bench.Jobs.OpenAsync(0, 10, Cancel)).Select(j => j.Id));
        Assert.Equal([jobs[2], jobs[1]], (await database.Bench.Jobs.OpenAsync(2, 2, Cancel)).Select(j => j.Id));
        Assert.Equal(Enumerable.Reverse(jobs), (await database.Bench.Jobs.OfEngineAsync(engine, Cancel)).Select(j => j.Id));

        // The oldest is added to, and comes first; two are closed, and leave the list.
        database.Time.Pass(TimeSpan.FromTicks(1));
        await database.Bench.SaveAsync(jobs[0], new JobNoted("tea"));
        Assert.Equal(jobs[0], (await database.Bench.Jobs.OpenAsync(0, 1, Cancel)).Single().Id);
        await database.Bench.SaveAsync(jobs[4], new JobClosed(118, "", "", ""));
        database.Time.Pass(TimeSpan.FromTicks(1));
        await database.Bench.SaveAsync(jobs[1], new JobClosed(118, "", "", ""));
        Assert.Equal([jobs[1], jobs[4]], (await database.Bench.Jobs.ClosedAsync(0, 10, Cancel)).Select(j => j.Id));
        Assert.Equal([jobs[0], jobs[3], jobs[2]], (await database.Bench.Jobs.OpenAsync(0, 10, Cancel)).Select(j => j.Id));
        Assert.Equal(3, await database.Bench.Jobs.CountOpenAsync(Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task Close_Job_KeepsARecordThatLaterCardsAndSettingsDoNotChange(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync("Seven");
        Guid job = await database.Bench.WorkedJobAsync(engine);
        database.Time.Pass(TimeSpan.FromHours(1));
        await database.Bench.SaveAsync(job, new JobClosed(119, "dust", "clean the filter", "Sam"));
        StoredJob closed = await database.Bench.FindJobAsync(job);
        Assert.Equal((JobStage.Closed, new DateTime(2026, 3, 1, 9, 0, 0, DateTimeKind.Utc)), (closed.Summary.Stage, closed.Summary.ClosedAt));
        Assert.NotNull(closed.Record);
        Assert.True(closed.Record.Pass);
        Assert.Equivalent(RecordOfJob.Of(closed.Sheet), closed.Record, strict: true);

        StoredEngine stored = (await database.Bench.Engines.FindAsync(engine, Cancel))!;
        await database.Bench.Engines.SaveAsync((engine, stored.Version, stored.CardVersion), "Renamed", Card("Renamed"), new CardDetails { Notes = "new" }, "", Cancel);
        await database.Bench.Settings.SaveAsync(new BenchSettings { KeepFloor = 0.9, Seating = 0.02 }, 0, "phone", Cancel);
        database.Time.Pass(TimeSpan.FromHours(1));
        await database.Bench.SaveAsync(job, new JobNoted("paid"));
        StoredJob later = await database.Another().FindJobAsync(job);
        Assert.Equal(closed.Record.ToJson(), later.Record?.ToJson());
        Assert.Equal(closed.Summary.ClosedAt, later.Summary.ClosedAt);
    }

    [Theory]
    [OnEachDatabase]
    public async Task Close_OpenAgainAndCloseAgain_KeepsTheNewRecord(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.WorkedJobAsync();
        await database.Bench.SaveAsync(job, new JobClosed(119, "dust", "", ""));
        Assert.Equal(AddOutcome.Refused, (await database.Bench.SendAsync(job, "phone", 99, new CheckStated(1, 20))).Outcome);
        await database.Bench.SaveAsync(job, new JobReopened());
        StoredJob open = await database.Bench.FindJobAsync(job);
        Assert.Equal((JobStage.Close, null, null), (open.Summary.Stage, open.Summary.ClosedAt, open.Record));
        await database.Bench.SaveAsync(job, new JobClosed(120, "dust and sand", "", ""));
        Assert.Equal((120, "dust and sand"), ((await database.Bench.FindJobAsync(job)).Record!.ClosedClock, (await database.Bench.FindJobAsync(job)).Record!.Found));
    }
}
