using System.Net;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Jobs.Planning;
using Shimwright.Pages.Wording;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Planning;

public class PlanPageTests
{
    private const string Single = "01-flood-pump.json";
    private const string Four = "02-worn-four.json";

    public static TheoryData<string> Files() => [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "demo"), "*.json").Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Files))]
    public async Task Get_EveryDemo_ShowsTheFiguresOfTheDownloadedFile(string file)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, file, DemoJob.TheCheck);
        FetchedPage page = await job.PageAsync("plan");
        PlanResult expected = PlanResult.Of(JobFile.Read(await job.Client.GetByteArrayAsync(new Uri(job.Address("file"), UriKind.Relative), TestContext.Current.CancellationToken), JobPurpose.Plan).Job!);
        var rows = page.Document.QuerySelectorAll("#plan .moves [data-valve]").ToDictionary(r => r.GetAttribute("data-valve")!);
        Assert.Equal(expected.Valves.Select(v => v.Valve).Order(), rows.Keys.Order());
        Assert.All(expected.Valves, v =>
        {
            string row = rows[v.Valve].TextContent;
            Assert.Contains(LengthStyle.Millimetres.Clearance(v.Estimate.Mean), row, StringComparison.Ordinal);
            Assert.Equal(PlanWords.Action(v), rows[v.Valve].GetAttribute("data-do"));
            Assert.Contains(v.To is { } to ? LengthStyle.Millimetres.Shim(to.Thickness) : "", row, StringComparison.Ordinal);
            Assert.Contains(v.Chance is { } chance ? Chances.Fine(chance) : "", row, StringComparison.Ordinal);
            Assert.Contains(v.Working, row, StringComparison.Ordinal);
        });
        string totals = page.Document.QuerySelector("#plan .do-now")!.TextContent;
        Assert.Contains(Chances.Fine(expected.ChanceAll), totals, StringComparison.Ordinal);
        Assert.Contains(Times.Minutes(expected.Minutes), totals, StringComparison.Ordinal);
        Assert.All(expected.Stranded, s => Assert.Contains(s.Why, page.Text, StringComparison.Ordinal));
        Assert.All(expected.Cautions, c => Assert.Contains(c, page.Text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Get_NothingRead_SaysWhatIsWantingAndWhere()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        FetchedPage page = await job.PageAsync("plan");
        Assert.Contains("A reading at I1, I2, E1, E2", page.Text, StringComparison.Ordinal);
        Assert.Contains("The shim found at I1, I2, E1, E2", page.Text, StringComparison.Ordinal);
        Assert.NotNull(page.Document.QuerySelector($"a[href='{job.Address("measure")}']"));
        Assert.Null(page.Document.QuerySelector(".moves"));
    }

    [Fact]
    public async Task Accept_AnAlternative_KeepsExactlyThat()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Four, DemoJob.TheCheck);
        FetchedPage next = await (await job.FormAsync("plan?plan=1", "accept")).SubmitAsync();
        Assert.EndsWith("/fit", next.Address.AbsolutePath, StringComparison.Ordinal);
        PlanResult offered = PlanResult.Of(JobSheetFile.Read((await job.StoredAsync()).Sheet, JobPurpose.Plan).Job!);
        PlanAccepted kept = (await job.StoredAsync()).Sheet.Plan!;
        Assert.Equal(offered.Alternatives[0].Minutes, kept.Minutes);
        Assert.Equal(offered.Alternatives[0].Valves, kept.Valves);
        Assert.Contains("(accepted)", (await job.PageAsync("plan")).Text, StringComparison.Ordinal);
    }

    /// <summary>A figure that changed between looking and tapping: what would be accepted is not what was seen.</summary>
    [Fact]
    public async Task Accept_FiguresChangedOnTheSameDevice_IsRefusedAndShowsTheNewPlan()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        FormPost accept = await job.FormAsync("plan", "accept");
        await (await job.FormAsync("plan", "costs")).With("Costs.Redo", "30").SubmitAsync();
        FetchedPage page = await accept.SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("its figures have changed since the page was loaded", page.Text, StringComparison.Ordinal);
        Assert.Null((await job.StoredAsync()).Sheet.Plan);
    }

    [Fact]
    public async Task Accept_AnotherDeviceReadInBetween_IsRefusedAndNothingIsAccepted()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        FormPost accept = await job.FormAsync("plan", "accept");
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        await bench.Database.Jobs.AddAsync(job.Id, new Addition(Guid.NewGuid(), "tablet", sheet.Last, [new BladeTried(SheetPart.Check, "E1", 0.15, 1, "loose")]), TestContext.Current.CancellationToken);
        FetchedPage page = await accept.SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Null((await job.StoredAsync()).Sheet.Plan);
        Assert.NotEmpty(page.Document.QuerySelectorAll(".notice.bad"));
    }

    [Fact]
    public async Task Get_ReadAgainAfterAccepting_SaysThatThePlanRestsOnOlderFigures()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        Assert.DoesNotContain("older figures", (await job.PageAsync("plan")).Text, StringComparison.Ordinal);
        int seen = (await job.StoredAsync()).Sheet.Last;
        await bench.Database.Jobs.AddAsync(job.Id, new Addition(Guid.NewGuid(), "tablet", seen, [new ClearanceRead(SheetPart.Check, "I1", 0.03, 0.01)]), TestContext.Current.CancellationToken);
        FetchedPage page = await job.PageAsync("plan");
        Assert.Contains("This plan uses older figures.", page.Text, StringComparison.Ordinal);
        Assert.Contains("I1: 0.030 mm measured", page.Text, StringComparison.Ordinal);
        await FormPost.On(job.Client, page, "accept").SubmitAsync();
        Assert.DoesNotContain("older figures", (await job.PageAsync("plan")).Text, StringComparison.Ordinal);
    }

    /// <summary>Once a shim is in without a plan there is nothing left to accept: what the page proposes is what to do with the rest.</summary>
    [Fact]
    public async Task Get_ShimFittedWithoutAPlan_ShowsPlansAndOffersNone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        Assert.NotNull((await job.PageAsync("plan")).Document.QuerySelector("form input[name='Accept.Mark']"));
        int seen = (await job.StoredAsync()).Sheet.Last;
        await bench.Database.Jobs.AddAsync(job.Id, new Addition(Guid.NewGuid(), "tablet", seen, [new ShimFitted("E2", new(2.36, "micrometer"), new(2.30, "micrometer"))]), TestContext.Current.CancellationToken);
        FetchedPage page = await job.PageAsync("plan");
        Assert.NotNull(page.Document.QuerySelector(".moves"));
        Assert.Null(page.Document.QuerySelector("form input[name='Accept.Mark']"));
    }

    [Fact]
    public async Task Release_NothingFitted_LetsThePlanGo()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        await (await job.FormAsync("plan", "release")).SubmitAsync();
        Assert.Null((await job.StoredAsync()).Sheet.Plan);
    }

    [Fact]
    public async Task Stock_OtherShims_MakesAnotherPlan()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await (await job.FormAsync("plan", "stock")).With("Stock.Drawer", "1,98 x2 micrometer\n2.34").With("Stock.Buy", "").SubmitAsync();
        StockStated stock = (await job.StoredAsync()).Sheet.Newest<StockStated>()!;
        Assert.Equal([new ShimsAtHand(1.98, "micrometer", 2), new ShimsAtHand(2.34, "marked", 1)], stock.Drawer);
        Assert.Contains("1.98", (await job.PageAsync("plan")).Document.QuerySelector(".moves")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("two of them", "shims at hand, line 1")]
    [InlineData("255 x2", "2.55 meant?")]
    public async Task Stock_NoShims_SaysSoAndKeepsWhatWasTyped(string typed, string expected)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        FetchedPage page = await (await job.FormAsync("plan", "stock")).With("Stock.Drawer", typed).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(expected, page.Text, StringComparison.Ordinal);
        Assert.Equal(typed, page.Document.QuerySelector("#stock-drawer")!.TextContent);
    }
}
