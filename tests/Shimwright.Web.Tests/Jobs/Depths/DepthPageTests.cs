using System.Net;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Depths;

public class DepthPageTests
{
    private const string Pump = "01-flood-pump.json";
    private const string ByDepth = "10-by-depth.json";

    [Fact]
    public async Task Measure_NoBladeEntered_LeadsToTheDepth()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Pump, DemoJob.Nothing);
        Assert.Null(Link(await job.PageAsync("measure?valve=I1")));
        await (await job.FormAsync("measure?valve=I1", "tap")).With("Tap.Blade", "0.05").With("Tap.Feel", "no").SubmitAsync();
        AngleSharp.Dom.IElement link = Link(await job.PageAsync("measure?valve=I1"))!;
        Assert.Contains("Depth: ", (await FetchedPage.GetAsync(job.Client, link.GetAttribute("href")!)).Text, StringComparison.Ordinal);
    }

    /// <summary>The camshaft once, then a depth: the figures of the guide's example, and those of the file that is downloaded.</summary>
    [Fact]
    public async Task Post_CamshaftThenDepth_GivesTheClearanceThatTheFileGives()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Pump, DemoJob.Nothing);
        FetchedPage page = await job.PageAsync("depth?valve=I1");
        Assert.Null(Form(page, "depth"));
        page = await Measured(FormPost.On(job.Client, page, "camshaft")).SubmitAsync();
        page = await FormPost.On(job.Client, page, "depth").With("Depth.Bucket.Value", "16,689").With("Depth.Bucket.U", "0.005").With("Depth.Bucket.N", "10").SubmitAsync();
        Assert.Contains("I1 by depth: -0.0180", page.Text, StringComparison.Ordinal);
        Assert.Contains("The valve is tight and may be held open", page.Text, StringComparison.Ordinal);
        Assert.Equal(["0.0097", "64.8", "2.00"], page.Document.QuerySelectorAll("#budget dd").Select(d => d.TextContent));
        Assert.Equal(5, page.Document.QuerySelectorAll("table.budget tbody tr").Length);

        byte[] file = await job.Client.GetByteArrayAsync(new Uri(job.Address("file"), UriKind.Relative), TestContext.Current.CancellationToken);
        EstimateResult estimate = EstimateResult.Of(JobFile.Read(file, JobPurpose.Estimate).Job!);
        DepthRow row = Assert.Single(estimate.Depths!);
        Assert.Equal(("I1", "intake cam", -0.018), (row.Valve, row.Camshaft, Math.Round(row.Clearance, 6)));
        string mean = estimate.Valves.Single(v => v.Valve == "I1").Mean.ToString("0.000;-0.000", System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains(mean, page.Document.QuerySelector(".estimate")!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>A depth entered again takes the place of the first: two would share the camshaft's errors.</summary>
    [Fact]
    public async Task Post_DepthOnceMore_CorrectsTheFirst()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, ByDepth, f => DemoJob.TheCheck(f) && f is not DepthTaken);
        FormPost form = (await job.FormAsync("depth?valve=I1", "depth")).With("Depth.Bucket.Value", "16.6").With("Depth.Bucket.U", "0.005");
        await form.SubmitAsync();
        FetchedPage page = await form.SubmitAsync();
        page = await FormPost.On(job.Client, page, "depth").With("Depth.Bucket.Value", "16.689").SubmitAsync();
        Assert.Contains("I1 by depth: -0.0180", page.Text, StringComparison.Ordinal);
        Assert.Single((await job.StoredAsync()).Sheet.InForce, e => e.Fact is DepthTaken);
    }

    [Fact]
    public async Task Post_AgainstAKnownValve_NeedsNoSizes()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Pump, DemoJob.TheCheck);
        FormPost camshaft = (await job.FormAsync("depth?valve=E2", "camshaft")).With("Cam.How", "known").With("Cam.Valve", "E1")
            .With("Cam.Clearance.Value", "0.236").With("Cam.Clearance.U", "0.007")
            .With("Cam.Bucket.Value", "16.936").With("Cam.Bucket.U", "0.005").With("Cam.Bucket.N", "10");
        FetchedPage page = await camshaft.SubmitAsync();
        page = await FormPost.On(job.Client, page, "depth").With("Depth.Bucket.Value", "16.731").With("Depth.Bucket.U", "0.005").SubmitAsync();
        // 0.236 + 16.731 - 16.936
        Assert.Contains("E2 by depth: 0.0310", page.Text, StringComparison.Ordinal);
        Assert.Contains("is the known valve under", (await job.PageAsync("depth?valve=E1")).Text, StringComparison.Ordinal);
    }

    /// <summary>An instrument brings its uncertainty, a known valve its clearance; a figure of one's own replaces the instrument's.</summary>
    [Fact]
    public async Task Post_WithInstrumentsOnly_TakesTheirUncertainty()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Pump, DemoJob.TheCheck);
        byte[] file = await job.Client.GetByteArrayAsync(new Uri(job.Address("file"), UriKind.Relative), TestContext.Current.CancellationToken);
        ValveEstimate e1 = EstimateResult.Of(JobFile.Read(file, JobPurpose.Estimate).Job!).Valves.Single(v => v.Valve == "E1");
        await (await job.FormAsync("depth?valve=E2", "camshaft")).With("Cam.How", "known").With("Cam.Valve", "E1")
            .With("Cam.Bucket.Value", "16.936").With("Cam.Bucket.By", "calliper").SubmitAsync();
        await (await job.FormAsync("depth?valve=E2", "depth")).With("Depth.Bucket.Value", "16.731").With("Depth.Bucket.By", "dial depth gauge").SubmitAsync();
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        var known = (CamshaftCompared)sheet.InForce.Last(e => e.Fact is CamshaftCompared).Fact;
        Assert.Equal((0.015, Math.Round(e1.Mean, 4), Math.Round(e1.Sd, 4)), (known.Bucket.U, known.Clearance.Value, known.Clearance.U));
        Assert.Equal(0.005, ((DepthTaken)sheet.InForce.Last(e => e.Fact is DepthTaken).Fact).Bucket.U);
        FetchedPage page = await job.PageAsync("depth?valve=E2");
        Assert.Equal("dial depth gauge", page.Document.QuerySelector("select[name='Depth.Bucket.By'] option[selected]")!.GetAttribute("value"));
        Assert.Equal("", page.Document.QuerySelector("input[name='Depth.Bucket.U']")!.GetAttribute("value") ?? "");
    }

    [Fact]
    public async Task Post_WhatCannotBe_NamesEachAndKeepsWhatWasTyped()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Pump, DemoJob.Nothing);
        FetchedPage page = await Measured(await job.FormAsync("depth?valve=I1", "camshaft"))
            .With("Cam.Saddle.Value", "deep").With("Cam.Journal.N", "1").With("Cam.BaseCircle.U", "").With("Cam.BaseCircle.By", "thumb").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        string alert = page.Document.QuerySelector("[role=alert]")!.TextContent;
        Assert.Contains("saddle: found \"deep\"", alert, StringComparison.Ordinal);
        Assert.Contains("journal, readings: found \"1\"", alert, StringComparison.Ordinal);
        Assert.Contains("base circle, uncertainty: nothing was entered", alert, StringComparison.Ordinal);
        Assert.Equal("deep", page.Document.QuerySelector("input[name='Cam.Saddle.Value']")!.GetAttribute("value"));
        page = await Measured(FormPost.On(job.Client, page, "camshaft")).With("Cam.Saddle.U", "3").SubmitAsync();
        Assert.Contains("saddle, uncertainty: found 3", page.Document.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(0, (await job.StoredAsync()).Sheet.Last);
    }

    [Fact]
    public async Task Get_AnEngineWithScrews_SaysThatADepthIsNoClearanceThere()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "06-plant-engine-screws.json", DemoJob.Nothing);
        FetchedPage page = await job.PageAsync("depth");
        Assert.Contains("where the cam acts on the bucket itself", page.Text, StringComparison.Ordinal);
        Assert.Null(Form(page, "camshaft"));
    }

    private static FormPost Measured(FormPost form) => form.With("Cam.How", "sizes")
        .With("Cam.Saddle.Value", "14.206").With("Cam.Saddle.U", "0.004").With("Cam.Saddle.N", "5")
        .With("Cam.Journal.Value", "24.958").With("Cam.Journal.U", "0.002").With("Cam.Journal.N", "10")
        .With("Cam.BaseCircle.Value", "30.02").With("Cam.BaseCircle.U", "0.003").With("Cam.BaseCircle.N", "10")
        .With("Cam.Play.Value", "0.03").With("Cam.Play.U", "0.007");

    private static AngleSharp.Dom.IElement? Link(FetchedPage page) => page.Document.QuerySelector(".notice a[href*='/depth?']");

    private static AngleSharp.Dom.IElement? Form(FetchedPage page, string handler) => page.Document.QuerySelector($"form input[name=_handler][value={handler}]");
}
