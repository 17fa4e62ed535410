using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Tests.Drawer;
using Shimwright.Jobs.Facts;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Jobs;

/// <summary>A discarded job counts nowhere, and counts again once it is put back.</summary>
public class DiscardTests
{
    [Theory]
    [OnEachBench]
    public async Task Discarded_OpenJob_LeavesTheListsAndComesBack(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IBench bench = test.Bench;
        Guid engine = await bench.AddEngineAsync(), job = await bench.StartJobAsync(engine), other = await bench.StartJobAsync(engine);
        Guid action = Guid.NewGuid();
        foreach (AddOutcome expected in new[] { AddOutcome.Saved, AddOutcome.SavedBefore })
        {
            Assert.Equal(expected, (await bench.Jobs.AddAsync(job, new(action, "phone", 0, [new JobDiscarded()]), Cancel)).Outcome);
        }

        Assert.Equal([other], (await test.Another().Jobs.OpenAsync(0, 10, Cancel)).Select(j => j.Id));
        Assert.Equal(1, await bench.Jobs.CountOpenAsync(Cancel));
        Assert.Equal(1, Assert.Single(await bench.Engines.ListAsync(null, 0, 10, Cancel)).OpenJobs);
        Assert.NotNull((await bench.Jobs.OfEngineAsync(engine, Cancel)).Single(j => j.Id == job).DiscardedAt);
        AddResult refused = await bench.SendAsync(job, "phone", 1, new ClearanceRead(SheetPart.Check, "I1", 0.2, 0.003));
        Assert.Equal("the job is discarded", Assert.Single(refused.Problems).Found);

        await bench.SaveAsync(job, new JobPutBack());
        Assert.Equal(2, await test.Another().Jobs.CountOpenAsync(Cancel));
        Assert.Null((await bench.FindJobAsync(job)).Summary.DiscardedAt);
        Assert.Equal("there is nothing to put back", Assert.Single((await bench.SendAsync(job, "phone", 9, new JobPutBack())).Problems).Allowed);
    }

    /// <summary>The list of jobs tells a check that found nothing to do from work that was done.</summary>
    [Theory]
    [OnEachBench]
    public async Task Closed_EveryValveInBand_IsListedAsNothingToDo(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid fine = await test.Bench.StartJobAsync(), worked = await test.Bench.WorkedJobAsync();
        JobFact[] read = [.. (await test.Bench.FindJobAsync(fine)).Sheet.Engine.Valves.Select(v => new ClearanceRead(SheetPart.Check, v.Id, v.Band.Middle, 0.003))];
        await test.Bench.SaveAsync(fine, [.. read, new JobClosed(118, "\"change\":\"fit\"", "", "")]);
        await test.Bench.SaveAsync(worked, new JobClosed(118, "", "", ""));
        Assert.Equal(
            new Dictionary<Guid, bool> { [fine] = true, [worked] = false },
            (await test.Another().Jobs.ClosedAsync(0, 10, Cancel)).ToDictionary(j => j.Id, j => j.NothingToDo));
    }

    [Theory]
    [OnEachBench]
    public async Task Discarded_UnseenReading_IsAskedFirst(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        await test.Bench.SaveAsync(job, new ClearanceRead(SheetPart.Check, "I1", 0.2, 0.003));
        Assert.Equal(AddOutcome.Conflict, (await test.Bench.SendAsync(job, "tablet", 0, new JobDiscarded())).Outcome);
        Assert.Equal(AddOutcome.Saved, (await test.Bench.SendAsync(job, "tablet", 1, new JobDiscarded())).Outcome);
    }

    [Theory]
    [OnEachBench]
    public async Task Discarded_ClosedJob_LeavesForecastRecordsAndMarks(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IBench bench = test.Bench;
        Guid engine = await bench.AddEngineAsync(), job = await bench.WorkedJobAsync(engine);
        await bench.SaveAsync(job, new ThicknessFound("I1", 2.5, "marked"), new ThicknessFound("I1", 2.51, "micrometer"), new JobClosed(118, "", "", ""));
        Assert.Equal((1, 1, 1), await CountsAsync());
        Assert.NotNull(await bench.Due.FindAsync(engine, Cancel));

        await bench.SaveAsync(job, new JobDiscarded());
        Assert.Equal((0, 0, 0), await CountsAsync());
        Assert.Null(await test.Another().Due.FindAsync(engine, Cancel));
        Assert.NotNull((await bench.FindJobAsync(job)).Record);
        BenchContents contents = await bench.Copies.ContentsAsync(Cancel);
        Assert.Empty(ContentRules.ProblemsOf(contents));
        await using TestBench copy = await TestBench.OfAsync(kind);
        Assert.True(await copy.Bench.Copies.TakeInAsync(contents, null, Cancel));
        Assert.NotNull((await copy.Bench.FindJobAsync(job)).Summary.DiscardedAt);

        await bench.SaveAsync(job, new JobPutBack());
        Assert.Equal((1, 1, 1), await CountsAsync());
        Assert.NotNull(await bench.Due.FindAsync(engine, Cancel));

        async Task<(int Past, int Records, int Marks)> CountsAsync() => (
            (await bench.Due.PastAsync(engine, Cancel)).Count, (await bench.Due.RecordsAsync(10, Cancel)).Count,
            (await bench.Marks.ListAsync(Cancel)).Count(m => m.Job == job));
    }

    /// <summary>What is promised is free for others; what is in the engine is not; what was booked out stays so.</summary>
    [Theory]
    [OnEachBench]
    public async Task Discarded_JobWithShims_FreesWhatIsPromisedAndNothingElse(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IBench bench = test.Bench;
        Guid engine = Guid.NewGuid();
        await bench.Engines.AddAsync(engine, "Flood pump 7", Card(), new CardDetails { ShimDiameter = 9.48 }, cancel: Cancel);
        foreach (double thickness in new[] { 2.3, 2.35, 2.4, 2.45, 2.5, 2.55 })
        {
            await DrawerTests.SaveAsync(bench.Drawer.AddAsync(new(ShimSize.Of(9.48, thickness, "micrometer"), 1), DrawerTests.Stamp(), Cancel));
        }

        Guid promised = await bench.StartJobAsync(engine);
        await bench.MeasureAsync(promised);
        await bench.SaveAsync(promised, PlanOf((await bench.FindJobAsync(promised)).Sheet));
        ShimLot lot = Assert.Single(await bench.Drawer.LotsAsync(Cancel), l => l.Promised == 1);
        await bench.SaveAsync(promised, new JobDiscarded());
        Assert.DoesNotContain(await bench.Drawer.LotsAsync(Cancel), l => l.Promised > 0);

        // Another job fits the shim: the first cannot have it back, only come back without its plan.
        Guid worked = await bench.WorkedJobAsync(engine);
        Assert.Equal("plan", Assert.Single((await bench.SendAsync(promised, "phone", 99, new JobPutBack())).Problems).Path);
        await bench.SaveAsync(promised, new JobPutBack(), new PlanReleased());
        Assert.Null((await bench.FindJobAsync(promised)).Sheet.Plan);

        await bench.SaveAsync(worked, new JobDiscarded());
        Assert.Equal((1, 1), (await LotAsync(), (await bench.Drawer.LotsAsync(Cancel)).Single(l => l.Size == lot.Size).Promised));
        await bench.SaveAsync(worked, new JobPutBack(), new JobClosed(118, "", "", ""), new JobDiscarded());
        Assert.Equal(0, await LotAsync());
        Assert.Empty(ContentRules.ProblemsOf(await bench.Copies.ContentsAsync(Cancel)));

        async Task<int> LotAsync() => (await test.Another().Drawer.LotsAsync(Cancel)).Single(l => l.Size == lot.Size).Count;
    }
}
