using System.Net;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Fitting;

/// <summary>A dry fit through its forms: felt, planned on from, and what goes is fitted anew while the rest stays ticked.</summary>
public class DryPageTests
{
    private const string Single = "01-flood-pump.json";

    /// <summary>I1 is tight with its new shim, E2 is right: the one goes and the other stays.</summary>
    [Fact]
    public async Task Job_WithADryFit_ChangesWhatGoesAndKeepsTheTicksOfTheRest()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await FittedAsync(bench);
        await FeelAsync(job, "I1", 0.13, "firm");
        await FeelAsync(job, "I1", 0.15, "no");
        await FeelAsync(job, "I2", 0.18, "light");
        FetchedPage page = await FeelAsync(job, "I2", 0.20, "firm");
        Assert.Contains("I1", page.Document.QuerySelector("#go-on .next")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("I2", page.Document.QuerySelector("#go-on .done")!.TextContent, StringComparison.Ordinal);

        // What is acted on has its chance and its working beside it, of the shims as they lie there now.
        Assert.Contains("in band", page.Document.QuerySelector("#go-on .next")!.TextContent, StringComparison.Ordinal);
        string[] workings = [.. page.Document.QuerySelectorAll("#go-on [data-label=Working]").Select(r => r.TextContent)];
        Assert.Contains("wanted", workings[0], StringComparison.Ordinal);
        Assert.Contains("left alone", workings[1], StringComparison.Ordinal);

        FetchedPage fit = await FormPost.On(job.Client, page, "go-on").SubmitAsync();
        Assert.EndsWith("/fit", fit.Address.AbsolutePath, StringComparison.Ordinal);
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        Assert.True(sheet.Plan!.CarriesOn);
        Assert.True(sheet.IsDone("isolate"));
        Assert.Equal(["I1"], sheet.Plan.Changes.Where(sheet.IsOwed).Select(r => r.Valve));
        Assert.DoesNotContain("done", fit.Document.QuerySelector("#valve-I1")!.ClassList);
        Assert.Contains("done", fit.Document.QuerySelector("#valve-I2")!.ClassList);
        ThicknessInOut was = InOut(sheet, "I1");

        await (await job.FormAsync("fit", "fit-I1")).SubmitAsync();
        sheet = (await job.StoredAsync()).Sheet;
        ThicknessInOut now = InOut(sheet, "I1");
        Assert.Equal(was.From, now.From);
        Assert.True(now.To < was.To, "A tight valve gets a thinner shim.");
        Assert.Equal(["I1", "I2", "E2"], sheet.Plan!.Changes.Select(r => r.Valve));
        Assert.Equal(JobStage.Fit, JobStages.Of(sheet));
        Assert.Null(sheet.LastReading(SheetPart.DryFit, "I1"));

        foreach (FitStep step in FitSteps.For(sheet).Where(s => !sheet.IsDone(s.Name)))
        {
            await (await job.FormAsync("fit", $"step-{step.Name}")).SubmitAsync();
        }

        sheet = (await job.StoredAsync()).Sheet;
        Assert.Equal(JobStage.Recheck, JobStages.Of(sheet));
        Shimwright.Jobs.Job read = JobSheetFile.Read(sheet, Shimwright.Jobs.JobPurpose.Draft).Job!;
        Assert.Equal("intake cam", Assert.Single(read.DryFits).Access);
        Assert.Contains(read.DryFits[0].Readings[0].Trials, t => t.Blade == 0.15);
    }

    [Fact]
    public async Task Dry_EveryShimRight_SaysThatEachStays()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await FittedAsync(bench);
        foreach ((string valve, double easy, double heavy) in ((string, double, double)[])[("I1", 0.18, 0.20), ("I2", 0.18, 0.20), ("E2", 0.25, 0.28)])
        {
            await FeelAsync(job, valve, easy, "light");
            await FeelAsync(job, valve, heavy, "firm");
        }

        FetchedPage page = await job.PageAsync("dry");
        Assert.Contains("Every shim stays", page.Text, StringComparison.Ordinal);
        Assert.EndsWith("/fit", page.Document.QuerySelector("#go-on a.first")!.GetAttribute("href"), StringComparison.Ordinal);
    }

    /// <summary>Cautions stand before anything is felt.</summary>
    [Fact]
    public async Task Get_ShimsIn_HasItsCautions()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await FittedAsync(bench);
        FetchedPage page = await job.PageAsync("dry");
        Assert.Contains("Never turn the engine during a dry fit.", page.Text, StringComparison.Ordinal);
        Assert.Contains("snug the caps by hand, evenly, in steps", page.Text, StringComparison.Ordinal);
        Assert.NotNull((await job.PageAsync("fit")).Document.QuerySelector($"a[href='/jobs/{job.Id}/dry']"));
    }

    [Fact]
    public async Task Get_ShimsNotIn_SaysWhenADryFitComes()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        Assert.Contains("No plan is accepted yet", (await job.PageAsync("dry")).Text, StringComparison.Ordinal);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        FetchedPage page = await job.PageAsync("dry");
        Assert.Contains("once every planned shim under a camshaft is in", page.Text, StringComparison.Ordinal);
        Assert.EndsWith("/fit", page.Document.QuerySelector(".empty a.first")!.GetAttribute("href"), StringComparison.Ordinal);
    }

    /// <summary>Figures that have changed since are not gone on with unseen.</summary>
    [Fact]
    public async Task GoOn_FiguresThatAreOthersNow_IsRefused()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await FittedAsync(bench);
        FetchedPage page = await FeelAsync(job, "I1", 0.13, "no");
        FetchedPage refused = await FormPost.On(job.Client, page, "go-on").With("GoOn.Mark", "ffff").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("its figures are others now", refused.Text, StringComparison.Ordinal);
        Assert.False((await job.StoredAsync()).Sheet.Plan!.CarriesOn);
    }

    /// <summary>Down for good is down for good: what is felt then is a re-check.</summary>
    [Fact]
    public async Task Feel_ACamshaftThatIsDownForGood_IsRefused()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await FittedAsync(bench);
        FormPost late = (await job.FormAsync("dry?valve=I1", "tap")).With("Tap.Blade", "0.13").With("Tap.Feel", "no");
        await (await job.FormAsync("fit", "step-refit/intake cam")).SubmitAsync();
        FetchedPage refused = await late.SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("the intake cam is down for good", refused.Text, StringComparison.Ordinal);
    }

    private static ThicknessInOut InOut(JobSheet sheet, string valve)
    {
        var fitted = (ShimFitted)sheet.ChangeAt(valve)!;
        return new(fitted.From.Thickness, fitted.To.Thickness);
    }

    private static async Task<FetchedPage> FeelAsync(DemoJob job, string valve, double blade, string feel)
    {
        FetchedPage page = await (await job.FormAsync($"dry?valve={valve}", "tap"))
            .With("Tap.Blade", blade.ToString(System.Globalization.CultureInfo.InvariantCulture)).With("Tap.Feel", feel).SubmitAsync();
        Assert.Equal(HttpStatusCode.OK, page.Status);
        return page;
    }

    /// <summary>The plan accepted, everything before the valves ticked, and every planned shim in.</summary>
    private static async Task<DemoJob> FittedAsync(RunningBench bench)
    {
        DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        foreach (FitStep step in FitSteps.For(sheet).Where(s => !s.After))
        {
            await (await job.FormAsync("fit", $"step-{step.Name}")).SubmitAsync();
        }

        foreach (string valve in sheet.Plan!.Changes.Select(c => c.Valve))
        {
            await (await job.FormAsync("fit", $"fit-{valve}")).SubmitAsync();
        }

        return job;
    }

    private sealed record ThicknessInOut(double From, double To);
}
