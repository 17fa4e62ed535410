using System.Net;
using Shimwright.Bench.Jobs;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Due;

public class ScorecardPageTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Get_NothingClosed_SaysWhatItTakes()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/due/scorecard");
        Assert.Contains("This page then compares the plan with the result", page.Text, StringComparison.Ordinal);
    }

    /// <summary>Jobs with some fittings each, read well and 0.02 off by turns: the bench's own seating is offered, and taken when asked.</summary>
    [Fact]
    public async Task Post_EnoughFittings_SavesTheSeatingThatWasOfferedAndOnlyThen()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        int fittings = 0;
        for (int n = 0; fittings < SeatingEstimate.LeastFittings; n++)
        {
            fittings += await CloseAsync(bench, n % 2 == 0 ? 0.02 : -0.02);
            Assert.True(n < 60);
        }

        FetchedPage page = await FetchedPage.GetAsync(client, "/due/scorecard");
        Assert.Contains($"Your {fittings} fittings give", page.Text, StringComparison.Ordinal);
        Assert.Single(page.Document.QuerySelectorAll(".calibration svg[role=img]"));
        Assert.Equal(0.004, (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.Seating);

        FetchedPage saved = await FormPost.On(client, page, "seating").SubmitAsync();
        double seating = (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.Seating;
        Assert.InRange(seating, 0.013, 0.021);
        Assert.Contains("New jobs use it", saved.Text, StringComparison.Ordinal);

        FetchedPage late = await FormPost.On(client, page, "seating").SubmitAsync();
        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        Assert.Contains("another device has changed the settings", late.Text, StringComparison.Ordinal);
    }

    /// <summary>The single with every valve 0.04 tight, planned, carried out and felt again at a miss.</summary>
    private static async Task<int> CloseAsync(RunningBench bench, double miss)
    {
        ParsedSetup reading = DemoEngine.Setup();
        using DemoJob job = await DemoJob.StartAsync(bench, reading.Setup!,
            [
                .. reading.Setup!.Card.Engine.Valves.Select(v => new ClearanceRead(SheetPart.Check, v.Id, v.Band.Low - 0.04, 0.002)),
                .. reading.Setup.Card.Engine.Valves.Select(v => new ThicknessFound(v.Id, 2.4, "micrometer")),
            ]);
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        PlanResult plan = PlanResult.Of(JobSheetFile.Read(sheet, JobPurpose.Plan).Job!);
        PlanAccepted accepted = new(plan.Opened, plan.ChanceAll, plan.Minutes, plan.Bought, plan.Valves, plan.Stranded);
        await AddAsync(bench, job.Id, accepted);
        await AddAsync(bench, job.Id, [.. FitSteps.For((await job.StoredAsync()).Sheet).Select(s => new StepTicked(s.Name, true))]);
        await AddAsync(bench, job.Id,
        [
            .. accepted.Changes.Select(c => new ShimFitted(c.Valve, c.From!, new(c.To!.Thickness, c.To.By))),
            .. accepted.Changes.Select(c => new ClearanceRead(SheetPart.Recheck, c.Valve, c.After!.Mean + miss, 0.001)),
            new JobClosed(reading.Setup!.Start.Clock, "", "", ""),
        ]);
        return accepted.Changes.Count();
    }

    private static async Task AddAsync(RunningBench bench, Guid job, params JobFact[] facts)
    {
        AddResult result = await bench.Database.Jobs.AddAsync(job, new Addition(Guid.NewGuid(), "test", int.MaxValue, facts), Cancel);
        Assert.True(result.IsSaved, string.Join('\n', result.Problems));
    }
}
