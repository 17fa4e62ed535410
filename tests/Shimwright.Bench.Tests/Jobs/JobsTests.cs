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
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Jobs;

public class JobsTests
{
    [Theory]
    [OnEachBench]
    public async Task StartAsync_SameActionFromEightTasks_StartsOneJob(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync(), action = Guid.NewGuid();
        Guid[] jobs = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(
            () => test.Another().Jobs.StartAsync(engine, Setup(), [new JobNoted("hello")], action, "phone", Cancel), Cancel)));
        Assert.Single(jobs.Distinct());
        Assert.Equal(1, await test.Bench.Jobs.CountOpenAsync(Cancel));
        Assert.Single((await test.Bench.FindJobAsync(jobs[0])).Sheet.Entries);
    }

    [Theory]
    [OnEachBench]
    public async Task StartAsync_JobFileTakenIn_GivesTheSamePlan(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        foreach (string file in (string[])["02-worn-four.json", "06-plant-engine-screws.json"])
        {
            ParsedSetup taken = ImportedJob(file);
            Guid job = await test.Bench.Jobs.StartAsync(await test.Bench.AddEngineAsync(file), taken.Setup!, taken.Facts, Guid.NewGuid(), "phone", Cancel);
            JobSheet sheet = (await test.Another().FindJobAsync(job)).Sheet;
            Assert.Equal(
                ResultJson.Write(PlanResult.Of(JobFile.Read(System.Text.Encoding.UTF8.GetBytes(Demo(file)), JobPurpose.Plan).Job!), indented: true),
                ResultJson.Write(PlanResult.Of(JobSheetFile.Read(sheet, JobPurpose.Plan).Job!), indented: true));
        }
    }

    [Theory]
    [OnEachBench]
    public async Task StartAsync_FactsThatDoNotBelong_Throws(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync();
        await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Jobs.StartAsync(engine, Setup(), [new ThicknessFound("I1", 262, "marked")], Guid.NewGuid(), "phone", Cancel));
        await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Jobs.StartAsync(engine, Setup(), [], Guid.Empty, "phone", Cancel));
        Assert.Equal(0, await test.Bench.Jobs.CountOpenAsync(Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task FindAsync_NoSuchJob_IsNull(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Assert.Null(await test.Bench.Jobs.FindAsync(Guid.NewGuid(), Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task FindAsync_WhileOthersWrite_HasAWholeSheetEveryTime(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        TaskCompletionSource looked = new(TaskCreationOptions.RunContinuationsAsynchronously);
        Task writing = Task.Run(
            async () =>
            {
                for (int n = 0; n < 40; n++)
                {
                    await test.Bench.SendAsync(job, "phone", 0, new JobNoted("a"), new JobNoted("b"), new JobNoted("c"));
                    if (n == 0)
                    {
                        // A machine with one core may write all before anybody looks.
                        await looked.Task;
                    }
                }
            },
            Cancel);
        int looks = 0;
        for (; !writing.IsCompleted; looks++)
        {
            StoredJob found = await test.Another().FindJobAsync(job);
            Assert.Equal(0, found.Sheet.Last % 3);
            Assert.Equal(Enumerable.Range(1, found.Sheet.Last), found.Sheet.Entries.Select(e => e.Number));
            looked.TrySetResult();
        }

        await writing;
        Assert.True(looks > 0);
        Assert.Equal(120, (await test.Bench.FindJobAsync(job)).Sheet.Last);
    }

    [Theory]
    [OnEachBench]
    public async Task Lists_OfJobs_SortByTimeAlikeOnEveryDatabase(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync("Busy");
        List<Guid> jobs = [];
        foreach (TimeSpan pause in (TimeSpan[])[TimeSpan.Zero, TimeSpan.FromTicks(1), TimeSpan.FromMilliseconds(1), TimeSpan.FromDays(400), TimeSpan.FromTicks(1)])
        {
            test.Time.Pass(pause);
            jobs.Add(await test.Bench.StartJobAsync(engine));
        }

        Assert.Equal(Enumerable.Reverse(jobs), (await test.Bench.Jobs.OpenAsync(0, 10, Cancel)).Select(j => j.Id));
        Assert.Equal([jobs[2], jobs[1]], (await test.Bench.Jobs.OpenAsync(2, 2, Cancel)).Select(j => j.Id));
        Assert.Equal(Enumerable.Reverse(jobs), (await test.Bench.Jobs.OfEngineAsync(engine, Cancel)).Select(j => j.Id));

        // The oldest is added to, and comes first; two are closed, and leave the list.
        test.Time.Pass(TimeSpan.FromTicks(1));
        await test.Bench.SaveAsync(jobs[0], new JobNoted("tea"));
        Assert.Equal(jobs[0], (await test.Bench.Jobs.OpenAsync(0, 1, Cancel)).Single().Id);
        await test.Bench.SaveAsync(jobs[4], new JobClosed(118, "", "", ""));
        test.Time.Pass(TimeSpan.FromTicks(1));
        await test.Bench.SaveAsync(jobs[1], new JobClosed(118, "", "", ""));
        Assert.Equal([jobs[1], jobs[4]], (await test.Bench.Jobs.ClosedAsync(0, 10, Cancel)).Select(j => j.Id));
        Assert.Equal([jobs[0], jobs[3], jobs[2]], (await test.Bench.Jobs.OpenAsync(0, 10, Cancel)).Select(j => j.Id));
        Assert.Equal(3, await test.Bench.Jobs.CountOpenAsync(Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task Close_Job_KeepsARecordThatLaterCardsAndSettingsDoNotChange(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync("Seven");
        Guid job = await test.Bench.WorkedJobAsync(engine);
        test.Time.Pass(TimeSpan.FromHours(1));
        await test.Bench.SaveAsync(job, new JobClosed(119, "dust", "clean the filter", "Sam"));
        StoredJob closed = await test.Bench.FindJobAsync(job);
        Assert.Equal((JobStage.Closed, new DateTime(2026, 3, 1, 9, 0, 0, DateTimeKind.Utc)), (closed.Summary.Stage, closed.Summary.ClosedAt));
        Assert.NotNull(closed.Record);
        Assert.True(closed.Record.Pass);
        Assert.Equivalent(RecordOfJob.Of(closed.Sheet), closed.Record, strict: true);

        StoredEngine stored = (await test.Bench.Engines.FindAsync(engine, Cancel))!;
        await test.Bench.Engines.SaveAsync((engine, stored.Version, stored.CardVersion), "Renamed", Card("Renamed"), new CardDetails { Notes = "new" }, "", cancel: Cancel);
        await test.Bench.Settings.SaveAsync(new BenchSettings { KeepFloor = 0.9, Seating = 0.02 }, 0, "phone", Cancel);
        test.Time.Pass(TimeSpan.FromHours(1));
        await test.Bench.SaveAsync(job, new JobNoted("paid"));
        StoredJob later = await test.Another().FindJobAsync(job);
        Assert.Equal(closed.Record.ToJson(), later.Record?.ToJson());
        Assert.Equal(closed.Summary.ClosedAt, later.Summary.ClosedAt);
    }

    [Theory]
    [OnEachBench]
    public async Task Close_OpenAgainAndCloseAgain_KeepsTheNewRecord(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.WorkedJobAsync();
        await test.Bench.SaveAsync(job, new JobClosed(119, "dust", "", ""));
        Assert.Equal(AddOutcome.Refused, (await test.Bench.SendAsync(job, "phone", 99, new CheckStated(1, 20))).Outcome);
        await test.Bench.SaveAsync(job, new JobReopened());
        StoredJob open = await test.Bench.FindJobAsync(job);
        Assert.Equal((JobStage.Close, null, null), (open.Summary.Stage, open.Summary.ClosedAt, open.Record));
        await test.Bench.SaveAsync(job, new JobClosed(120, "dust and sand", "", ""));
        Assert.Equal((120, "dust and sand"), ((await test.Bench.FindJobAsync(job)).Record!.ClosedClock, (await test.Bench.FindJobAsync(job)).Record!.Found));
    }
}
