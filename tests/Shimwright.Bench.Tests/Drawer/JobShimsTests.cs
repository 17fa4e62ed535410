using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Drawer;

/// <summary>Jobs that plan with the shop's drawer. On the sample engine one valve, E2, wants 2.415 mm or so in place of its 2.5.</summary>
public class JobShimsTests
{
    private const double Diameter = 9.48;

    [Theory]
    [OnEachBench]
    public async Task Accepted_FromTheDrawer_IsPromisedAndAnotherJobCannotPromiseItToo(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        (Guid first, Guid second) = (await ReadyJobAsync(test.Bench), await ReadyJobAsync(test.Bench));
        await PutInAsync(test.Bench, 1);
        PlanAccepted plan = await PlanAsync(test.Bench, first);
        PlanAccepted other = await PlanAsync(test.Bench, second);
        Assert.Equal("drawer", Assert.Single(plan.Changes).To!.Source);
        await test.Bench.SaveAsync(first, plan);
        ShimLot lot = Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel));
        Assert.Equal((1, 1, 0), (lot.Count, lot.Promised, lot.Free));

        AddResult refused = await test.Bench.SendAsync(second, "phone", int.MaxValue, other);
        Assert.Equal(AddOutcome.Refused, refused.Outcome);
        Assert.Contains("another job has promised", Assert.Single(refused.Problems).Allowed, StringComparison.Ordinal);
        Assert.Null((await test.Bench.FindJobAsync(second)).Sheet.Plan);
        Assert.Empty((await test.Bench.FindJobAsync(second)).Sheet.Shop!);

        await test.Bench.SaveAsync(first, new PlanReleased());
        Assert.Equal(0, Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Promised);
        await test.Bench.SaveAsync(second, await PlanAsync(test.Bench, second));
    }

    [Theory]
    [OnEachBench]
    public async Task Accepted_ByEightJobsAtOnce_TheLastShimIsPromisedToOne(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        List<Guid> jobs = [];
        for (int n = 0; n < 8; n++)
        {
            jobs.Add(await ReadyJobAsync(test.Bench));
        }

        await PutInAsync(test.Bench, 1);
        PlanAccepted plan = await PlanAsync(test.Bench, jobs[0]);
        AddResult[] results = await Task.WhenAll(jobs.Select(j => Task.Run(() => test.Another().SendAsync(j, "phone", int.MaxValue, plan), Cancel)));
        Assert.Equal(1, results.Count(r => r.Outcome == AddOutcome.Saved));
        Assert.Equal(7, results.Count(r => r.Outcome == AddOutcome.Refused));
        Assert.Equal(1, Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Promised);
    }

    [Theory]
    [OnEachBench]
    public async Task File_AfterAccepting_GivesTheAcceptedPlanWhateverBecomesOfTheDrawer(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        await PutInAsync(test.Bench, 1);
        PlanAccepted plan = await PlanAsync(test.Bench, job);
        await test.Bench.SaveAsync(job, plan);
        await PutInAsync(test.Bench, 5, 2.42);
        byte[] file = JobSheetFile.Write((await test.Bench.FindJobAsync(job)).Sheet);
        Job read = JobFile.Read(file, JobPurpose.Plan).Job!;
        Assert.Equal(plan.ChanceAll, PlanResult.Of(read).ChanceAll);
        Assert.Equal([2.415], read.Stock.Drawer.Select(d => d.Thickness.Millimetres));
    }

    /// <summary>What a device says of the shop's drawer is old by the time it arrives.</summary>
    [Theory]
    [OnEachBench]
    public async Task Accepted_WithADrawerThatADeviceSent_RestsOnTheDrawerAsItIs(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        await PutInAsync(test.Bench, 1);
        await test.Bench.SaveAsync(job, new StockStated([new(2.3, "micrometer", 9)], [], FromShop: true), await PlanAsync(test.Bench, job));
        Assert.Equal([new ShimsAtHand(2.415, "micrometer", 1)], (await test.Bench.FindJobAsync(job)).Sheet.Newest<StockStated>()!.Drawer);
    }

    /// <summary>The shim is nowhere to be found; the job goes on, with what was in its place.</summary>
    [Theory]
    [OnEachBench]
    public async Task Fitted_WhereThePromisedShimWasCountedAway_IsSaved(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        await PutInAsync(test.Bench, 1);
        PlanAccepted plan = await PlanAsync(test.Bench, job);
        PlanRow line = Assert.Single(plan.Changes);
        await test.Bench.SaveAsync(job, plan);
        await DrawerTests.SaveAsync(test.Bench.Drawer.CountAsync([new(ShimSize.Of(Diameter, 2.415, "micrometer"), 0)], DrawerTests.Stamp(), Cancel));
        await test.Bench.SaveAsync(job, [.. FitSteps.For((await test.Bench.FindJobAsync(job)).Sheet).Select(s => new StepTicked(s.Name, true))]);
        await test.Bench.SaveAsync(job, new ShimFitted(line.Valve, line.From!, new(2.42, "micrometer")));
        Assert.NotNull((await test.Bench.FindJobAsync(job)).Sheet.ChangeAt(line.Valve));

        // There is none to take out any more: none is left, not fewer.
        await test.Bench.SaveAsync(job, new JobClosed(120, "", "", ""));
        Assert.Equal([(2415, 0, 0), (2500, 1, 0)], await StateAsync(test.Bench));
    }

    /// <summary>What went in without a plan has the size of a shim that another job was promised: that one stays where it is.</summary>
    [Theory]
    [OnEachBench]
    public async Task Closed_WithAShimOfASizeThatIsPromisedToAnother_LeavesItThere(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        (Guid first, Guid second) = (await ReadyJobAsync(test.Bench), await ReadyJobAsync(test.Bench));
        await PutInAsync(test.Bench, 1);
        await test.Bench.SaveAsync(first, await PlanAsync(test.Bench, first));
        await test.Bench.SaveAsync(second, new ShimFitted("E2", new(2.5, "micrometer"), new(2.415, "micrometer")));
        await test.Bench.SaveAsync(second, new JobClosed(120, "", "", ""));
        Assert.Equal([(2415, 1, 1), (2500, 1, 0)], await StateAsync(test.Bench));
    }

    [Theory]
    [OnEachBench]
    public async Task Closed_Opened_ClosedAgain_TheLedgerFollows(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await WorkedAsync(test.Bench);
        ShimLot before = Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel));
        Assert.Equal((2, 1, 1, 1), (before.Count, before.Promised, before.Fitted, before.Lying));

        JobClosed closing = new(120, "", "", "");
        await test.Bench.SaveAsync(job, closing);
        Assert.Equal([(2415, 1, 0), (2500, 1, 0)], await StateAsync(test.Bench));
        await test.Bench.SaveAsync(job, new JobReopened());
        Assert.Equal([(2415, 2, 1), (2500, 0, 0)], await StateAsync(test.Bench));
        await test.Bench.SaveAsync(job, closing);
        Assert.Equal([(2415, 1, 0), (2500, 1, 0)], await StateAsync(test.Bench));
        IReadOnlyList<DrawerMove> history = await test.Bench.Drawer.HistoryAsync(ShimSize.Of(Diameter, 2.415, "micrometer"), Cancel);
        Assert.Equal([ShimReason.Taken, ShimReason.Undone, ShimReason.Taken, ShimReason.Bought], history.Select(m => m.Reason));
        Assert.Equal(("Drawer engine", false), (history[0].Engine, history[0].CanBeUndone));
        Assert.Contains("open the job again", (await test.Bench.Drawer.UndoAsync(history[0].Number, DrawerTests.Stamp(), Cancel)).Problems[0].Allowed, StringComparison.Ordinal);
    }

    /// <summary>What was moved under one diameter goes back under that one, whatever the card says by then.</summary>
    [Theory]
    [OnEachBench]
    public async Task Reopened_AfterTheCardsDiameterWasCorrected_PutsTheShimsBackWhereTheyWere(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await WorkedAsync(test.Bench);
        await test.Bench.SaveAsync(job, new JobClosed(120, "", "", ""));
        StoredEngine engine = (await test.Bench.Engines.FindAsync((await test.Bench.FindJobAsync(job)).Summary.EngineId, Cancel))!;
        await test.Bench.Engines.SaveAsync(
            (engine.Id, engine.Version, engine.CardVersion), engine.Name, engine.Card, engine.Details with { ShimDiameter = 13 }, "", cancel: Cancel);
        await test.Bench.SaveAsync(job, new JobReopened());
        Assert.Equal([(2415, 2, 1), (2500, 0, 0)], await StateAsync(test.Bench));
        Assert.All(await test.Bench.Drawer.LotsAsync(Cancel), l => Assert.Equal(9480, l.Size.Diameter));
    }

    /// <summary>It was refused once: the shim it had used was looked for in the drawer before the opening put it back.</summary>
    [Theory]
    [OnEachBench]
    public async Task Reopened_WhereItHadUsedTheLastOfASize_IsOpenAndHasItPromised(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await WorkedAsync(test.Bench, shims: 1);
        await test.Bench.SaveAsync(job, new JobClosed(120, "", "", ""));
        Assert.Equal([(2415, 0, 0), (2500, 1, 0)], await StateAsync(test.Bench));
        await test.Bench.SaveAsync(job, new JobReopened());
        Assert.Equal([(2415, 1, 1), (2500, 0, 0)], await StateAsync(test.Bench));
    }

    [Theory]
    [OnEachBench]
    public async Task Reopened_WhereTheOldShimIsThereNoMore_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await WorkedAsync(test.Bench);
        await test.Bench.SaveAsync(job, new JobClosed(120, "", "", ""));
        await DrawerTests.SaveAsync(test.Bench.Drawer.CountAsync([new(ShimSize.Of(Diameter, 2.5, "micrometer"), 0)], DrawerTests.Stamp(), Cancel));
        AddResult refused = await test.Bench.SendAsync(job, "phone", int.MaxValue, new JobReopened());
        Assert.Equal(AddOutcome.Refused, refused.Outcome);
        Assert.Contains("has been used or promised since", Assert.Single(refused.Problems).Found, StringComparison.Ordinal);
        Assert.NotNull((await test.Bench.FindJobAsync(job)).Sheet.Closing);
    }

    /// <summary>What came out of one engine was promised to the next: the first job cannot have it back, and nothing is changed by asking.</summary>
    [Theory]
    [OnEachBench]
    public async Task Reopened_WhereTheOldShimWasPromisedSince_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await WorkedAsync(test.Bench, shims: 1);
        await test.Bench.SaveAsync(job, new JobClosed(120, "", "", ""));
        Guid next = await ReadyJobAsync(test.Bench);
        await test.Bench.SaveAsync(next, new ThicknessFound("E2", 2.585, "micrometer"));
        PlanAccepted plan = await PlanAsync(test.Bench, next);
        Assert.Equal((2.5, "drawer"), (Assert.Single(plan.Changes).To!.Thickness, plan.Changes.Single().To!.Source));
        await test.Bench.SaveAsync(next, plan);
        Assert.Equal([(2415, 0, 0), (2500, 1, 1)], await StateAsync(test.Bench));

        AddResult refused = await test.Bench.SendAsync(job, "phone", int.MaxValue, new JobReopened());
        Assert.Equal(AddOutcome.Refused, refused.Outcome);
        Assert.Contains("has been used or promised since", Assert.Single(refused.Problems).Found, StringComparison.Ordinal);
        Assert.Equal([(2415, 0, 0), (2500, 1, 1)], await StateAsync(test.Bench));
        Assert.NotNull((await test.Bench.FindJobAsync(job)).Sheet.Closing);

        await test.Bench.SaveAsync(next, new PlanReleased());
        await test.Bench.SaveAsync(job, new JobReopened());
        Assert.Equal([(2415, 1, 1), (2500, 0, 0)], await StateAsync(test.Bench));
    }

    /// <summary>The shims of work that was done before the file was taken in came from elsewhere, and the old ones went there.</summary>
    [Theory]
    [OnEachBench]
    public async Task Closed_TakenInWithItsWorkDone_LeavesTheDrawerAlone(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = Guid.NewGuid();
        await test.Bench.Engines.AddAsync(engine, "Drawer engine", Card("Drawer engine"), new CardDetails { ShimDiameter = Diameter }, cancel: Cancel);
        await PutInAsync(test.Bench, 1);
        JobFact[] done = [new ShimFitted("E2", new(2.5, "micrometer"), new(2.415, "micrometer"))];
        Guid job = await test.Bench.Jobs.StartAsync(engine, Setup(), done, Guid.NewGuid(), "phone", Cancel);
        await test.Bench.SaveAsync(job, new JobClosed(120, "", "", ""));
        Assert.Equal([(2415, 1, 0)], await StateAsync(test.Bench));
    }

    [Theory]
    [OnEachBench]
    public async Task UndoAsync_EntryOfAShimThatAnOpenJobHasPromised_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        await PutInAsync(test.Bench, 1);
        await test.Bench.SaveAsync(job, await PlanAsync(test.Bench, job));
        int entry = Assert.Single(await test.Bench.Drawer.HistoryAsync(ShimSize.Of(Diameter, 2.415, "micrometer"), Cancel)).Number;
        Assert.Equal(AddOutcome.Refused, (await test.Bench.Drawer.UndoAsync(entry, DrawerTests.Stamp(), Cancel)).Outcome);
        Assert.Equal([(2415, 1, 1)], await StateAsync(test.Bench));
        await test.Bench.SaveAsync(job, new PlanReleased());
        await DrawerTests.SaveAsync(test.Bench.Drawer.UndoAsync(entry, DrawerTests.Stamp(), Cancel));
        Assert.Equal([(2415, 0, 0)], await StateAsync(test.Bench));
    }

    /// <summary>The job has it planned by its mark, and would find none of that size.</summary>
    [Theory]
    [OnEachBench]
    public async Task MeasureAsync_ShimThatAnOpenJobHasPromised_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        ShimSize marked = ShimSize.Of(Diameter, 2.415, "marked");
        await DrawerTests.SaveAsync(test.Bench.Drawer.AddAsync(new(marked, 1), DrawerTests.Stamp(), Cancel));
        await test.Bench.SaveAsync(job, await PlanAsync(test.Bench, job));
        Assert.Equal(AddOutcome.Refused, (await test.Bench.Drawer.MeasureAsync(marked, 2.41, null, DrawerTests.Stamp(), Cancel)).Outcome);
        Assert.Equal([(2415, 1, 1)], await StateAsync(test.Bench));
        await test.Bench.SaveAsync(job, new PlanReleased());
        await DrawerTests.SaveAsync(test.Bench.Drawer.MeasureAsync(marked, 2.41, null, DrawerTests.Stamp(), Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task Shop_OfAJob_HasTheShimsOfItsDiameterAlone(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        await DrawerTests.SaveAsync(test.Bench.Drawer.AddAsync(new(ShimSize.Of(13, 2.415, "micrometer"), 2), DrawerTests.Stamp(), Cancel));
        Assert.Empty((await test.Bench.FindJobAsync(job)).Sheet.Shop!);
        await PutInAsync(test.Bench, 1, 2.5);
        Assert.Equal([new ShimsAtHand(2.5, "micrometer", 1)], (await test.Bench.FindJobAsync(job)).Sheet.Shop!);
    }

    [Theory]
    [OnEachBench]
    public async Task CountAsync_WhileAPromisedShimIsFitted_CountsWhatLiesThere(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await WorkedAsync(test.Bench);
        await DrawerTests.SaveAsync(test.Bench.Drawer.CountAsync([new(ShimSize.Of(Diameter, 2.415, "micrometer"), 1)], DrawerTests.Stamp(), Cancel));
        Assert.Equal(2, Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Count);
        await test.Bench.SaveAsync(job, new JobClosed(120, "", "", ""));
        Assert.Contains((2415, 1, 0), await StateAsync(test.Bench));
    }

    [Theory]
    [OnEachBench]
    public async Task OwnShims_StatedForTheJob_LeaveTheDrawerAlone(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        await PutInAsync(test.Bench, 1);
        await test.Bench.SaveAsync(job, new StockStated([new(2.415, "micrometer", 1)], []));
        await test.Bench.SaveAsync(job, await PlanAsync(test.Bench, job));
        Assert.Equal((1, 0), (Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Count, Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Promised));
    }

    [Theory]
    [OnEachBench]
    public async Task Undone_TheAccepting_FreesTheShim(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await ReadyJobAsync(test.Bench);
        await PutInAsync(test.Bench, 1);
        Guid action = Guid.NewGuid();
        await test.Bench.Jobs.AddAsync(job, new(action, "phone", int.MaxValue, [await PlanAsync(test.Bench, job)]), Cancel);
        Assert.Equal(1, Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Promised);
        await test.Bench.SaveAsync(job, new Undone(action));
        Assert.Equal(0, Assert.Single(await test.Bench.Drawer.LotsAsync(Cancel)).Promised);
        Assert.Single((await test.Bench.FindJobAsync(job)).Sheet.Shop!);
    }

    private static async Task<(int, int, int)[]> StateAsync(IBench bench) =>
        [.. (await bench.Drawer.LotsAsync(Cancel)).Select(l => (l.Size.Thickness, l.Count, l.Promised))];

    private static Task PutInAsync(IBench bench, int count, double thickness = 2.415) =>
        DrawerTests.SaveAsync(bench.Drawer.AddAsync(new(ShimSize.Of(Diameter, thickness, "micrometer"), count), DrawerTests.Stamp(), Cancel));

    /// <summary>A job with all four valves read, on an engine whose card says which shims fit.</summary>
    private static async Task<Guid> ReadyJobAsync(IBench bench)
    {
        Guid engine = Guid.NewGuid();
        await bench.Engines.AddAsync(engine, "Drawer engine", Card("Drawer engine"), new CardDetails { ShimDiameter = Diameter }, cancel: Cancel);
        Guid job = await bench.StartJobAsync(engine);
        await bench.MeasureAsync(job);
        return job;
    }

    private static async Task<PlanAccepted> PlanAsync(IBench bench, Guid job) => PlanOf((await bench.FindJobAsync(job)).Sheet);

    /// <summary>Two shims in the drawer, or as many as are said, one of them fitted at E2.</summary>
    private static async Task<Guid> WorkedAsync(IBench bench, int shims = 2)
    {
        Guid job = await ReadyJobAsync(bench);
        await PutInAsync(bench, shims);
        PlanAccepted plan = await PlanAsync(bench, job);
        PlanRow line = Assert.Single(plan.Changes);
        await bench.SaveAsync(job, plan);
        await bench.SaveAsync(job, [.. FitSteps.For((await bench.FindJobAsync(job)).Sheet).Select(s => new StepTicked(s.Name, true))]);
        await bench.SaveAsync(job, new ShimFitted(line.Valve, line.From!, new(line.To!.Thickness, line.To.By)), new ClearanceRead(SheetPart.Recheck, line.Valve, 0.255, 0.003));
        return job;
    }
}
