using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Jobs.Readings;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Measuring;

public class MeasurePageTests
{
    private const string Single = "01-flood-pump.json";

    [Fact]
    public async Task Tap_TheSuggestedBlade_IsKeptAndTheEstimateMoves()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        FetchedPage before = await job.PageAsync("measure?valve=E1");
        FormPost tap = FormPost.On(job.Client, before, "tap").With("Tap.Feel", "light");
        string suggested = tap.Fields.Single(f => f.Key == "Tap.Blade").Value;
        FetchedPage after = await tap.SubmitAsync();
        Assert.StartsWith($"/jobs/{job.Id}/measure?valve=", after.Address.PathAndQuery, StringComparison.Ordinal);
        after = await job.PageAsync("measure?valve=E1");
        BladeTried fact = (await job.StoredAsync()).Sheet.InForce.Select(e => e.Fact).OfType<BladeTried>().Single();
        Assert.Equal(("E1", suggested, "light"), (fact.Valve, fact.Blade.ToString("R", System.Globalization.CultureInfo.InvariantCulture), fact.Feel));
        Assert.NotEqual(Estimate(before), Estimate(after));
        Assert.StartsWith("Expected: ", Estimate(before), StringComparison.Ordinal);
    }

    /// <summary>The figures of the page are those that the command estimate has for the job's file.</summary>
    [Theory]
    [InlineData(Single)]
    [InlineData("02-worn-four.json")]
    [InlineData("08-in-thou.json")]
    public async Task Get_EveryValve_ShowsTheEstimateOfTheDownloadedFile(string file)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, file, DemoJob.TheCheck);
        byte[] download = await job.Client.GetByteArrayAsync(new Uri(job.Address("file"), UriKind.Relative), TestContext.Current.CancellationToken);
        EstimateResult expected = EstimateResult.Of(JobFile.Read(download, JobPurpose.Estimate).Job!);
        foreach (ValveEstimate valve in expected.Valves)
        {
            FetchedPage page = await job.PageAsync($"measure?valve={Uri.EscapeDataString(valve.Valve)}");
            Assert.Equal(ReadingWords.Of(new EstimateRow(valve.Mean, valve.Sd, valve.Low, valve.High, valve.InBand, valve.Status), LengthStyle.Millimetres), Estimate(page));
            Assert.Equal(expected.Cautions, page.Document.QuerySelectorAll("section[aria-label=Cautions] li").Select(l => l.TextContent));
        }
    }

    [Fact]
    public async Task Undo_TheLastTap_TakesItBackAndOffersToPutItBack()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        FetchedPage full = await job.PageAsync("measure?valve=E1");
        Assert.Equal(2, Readings(full).Length);
        FetchedPage undone = await Press(job, full, "undo", "Undo the last tap");
        Assert.Equal(["blade 0.23 mm, light"], Readings(undone));
        Assert.Contains("Put back: blade 0.25 mm, firm", undone.Text, StringComparison.Ordinal);
        FetchedPage again = await Press(job, undone, "undo", "Put back: blade 0.25 mm, firm");
        Assert.Equal(Readings(full), Readings(again));
        Assert.Equal(Estimate(full), Estimate(again));
        Assert.DoesNotContain("Put back", again.Text, StringComparison.Ordinal);
    }

    /// <summary>The readings of a file came in one action, and still each is taken back on its own.</summary>
    [Fact]
    public async Task Undo_AnEarlierReading_LeavesTheOthers()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        int before = (await job.StoredAsync()).Sheet.InForce.Count;
        FetchedPage after = await Press(job, await job.PageAsync("measure?valve=E1"), "undo", "take back");
        Assert.Equal(["blade 0.25 mm, firm"], Readings(after));
        Assert.Equal(before - 1, (await job.StoredAsync()).Sheet.InForce.Count);
    }

    [Fact]
    public async Task Undo_TwiceFromTwoDevices_SaysThatItIsGoneAlready()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        using HttpClient other = bench.NewClient();
        FetchedPage mine = await job.PageAsync("measure?valve=E1");
        FetchedPage theirs = await FetchedPage.GetAsync(other, job.Address("measure?valve=E1"));
        string entry = Button(mine, "undo", "Undo the last tap").GetAttribute("value")!;
        await FormPost.On(other, theirs, "undo").With("Undo.Entry", entry).SubmitAsync();
        FetchedPage late = await FormPost.On(job.Client, mine, "undo").With("Undo.Entry", entry).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, late.Status);
        Assert.Contains("there is no such reading any more", late.Text, StringComparison.Ordinal);
        Assert.Single(Readings(late));
    }

    [Fact]
    public async Task Tap_OnTwoDevicesAtOnce_KeepsBoth()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        using HttpClient other = bench.NewClient();
        FetchedPage mine = await job.PageAsync("measure?valve=I1");
        FetchedPage theirs = await FetchedPage.GetAsync(other, job.Address("measure?valve=I1"));
        await FormPost.On(other, theirs, "tap").With("Tap.Blade", "0.08").With("Tap.Feel", "light").SubmitAsync();
        await FormPost.On(job.Client, mine, "tap").With("Tap.Blade", "0.1").With("Tap.Feel", "firm").SubmitAsync();
        Assert.Equal(["blade 0.08 mm, light", "blade 0.10 mm, firm"], Readings(await job.PageAsync("measure?valve=I1")));
    }

    [Fact]
    public async Task Tap_SentTwice_CountsOnce()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        FormPost tap = (await job.FormAsync("measure?valve=I1", "tap")).With("Tap.Feel", "firm");
        await tap.SubmitAsync();
        await tap.SubmitAsync();
        Assert.Single(Readings(await job.PageAsync("measure?valve=I1")));
    }

    [Fact]
    public async Task Conditions_ChangedElsewhereMeanwhile_AreShownFirst()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        using HttpClient other = bench.NewClient();
        FormPost mine = (await job.FormAsync("measure", "conditions")).With("Conditions.Temperature", "25");
        await (await FormPost.OnAsync(other, job.Address("measure"), "conditions")).With("Conditions.Temperature", "35").SubmitAsync();
        FetchedPage late = await mine.SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, late.Status);
        Assert.Contains("Something was added to this job after your page was loaded", late.Text, StringComparison.Ordinal);
        Assert.Contains("engine at 35 °C", late.Text, StringComparison.Ordinal);
        Assert.Equal(35, (await job.StoredAsync()).Sheet.Check.TemperatureC);
    }

    [Fact]
    public async Task ValueBucketConditionsAndSuspected_AreKept()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        await (await job.FormAsync("measure?valve=E1", "value")).With("Value.Value", "0,26").SubmitAsync();
        await (await job.FormAsync("measure?valve=E1", "turn")).With("Turn.Turns", "yes").SubmitAsync();
        await (await job.FormAsync("measure", "conditions")).With("Conditions.Clock", "120").With("Conditions.Temperature", "19").SubmitAsync();
        FetchedPage page = await (await job.FormAsync("measure", "suspected")).With("Suspected.Cause", "dust").SubmitAsync();
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        Assert.Equal(
            [new ClearanceRead(SheetPart.Check, "E1", 0.26, 0.01), new BucketTurned(SheetPart.Check, "E1", true), new CheckStated(120, 19), new LossSuspected("dust")],
            sheet.InForce.Select(e => e.Fact).Where(f => f is not CrankTurned));
        Assert.Contains("Suspected: Dust got in", page.Text, StringComparison.Ordinal);
        Assert.All(SuspectedCause.All, c => Assert.Contains(c.Assumes, page.Text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Get_NoBladeEntered_SaysWhatThatMeans()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        Assert.Contains("not even 0.08 mm", (await job.PageAsync("measure?valve=I1")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_AValveWithAnyName_IsSelectedByItsLink()
    {
        string text = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "demo", Single), TestContext.Current.CancellationToken);
        ParsedSetup reading = JobSetup.FromFile(System.Text.Encoding.UTF8.GetBytes(text.Replace("\"E1\"", "\"E&1 <ü>\"", StringComparison.Ordinal)));
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, reading.Setup!, [.. reading.Facts.Where(DemoJob.TheCheck)]);
        FetchedPage page = await job.PageAsync("measure?valve=I1");
        string link = page.Document.QuerySelectorAll(".strip a").Single(a => a.TextContent.StartsWith("E&1 <ü>", StringComparison.Ordinal)).GetAttribute("href")!;
        FetchedPage selected = await FetchedPage.GetAsync(job.Client, link);
        Assert.StartsWith("E&1 <ü>, cylinder 1, exhaust", selected.Document.QuerySelector("#valve h2")!.TextContent, StringComparison.Ordinal);
        await FormPost.On(job.Client, selected, "tap").With("Tap.Blade", "0.18").With("Tap.Feel", "light").SubmitAsync();
        Assert.Equal(3, Readings(await FetchedPage.GetAsync(job.Client, link)).Length);
    }

    [Fact]
    public async Task Get_AllRead_LeadsToTheNextStage()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "03-leave-alone.json", DemoJob.TheCheck);
        IElement link = (await job.PageAsync("measure")).Document.QuerySelector(".next-up a")!;
        Assert.Equal($"/jobs/{job.Id}/close", link.GetAttribute("href"));
    }

    [Fact]
    public async Task Get_ALayout_SaysWhereTheCrankStands()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "02-worn-four.json", DemoJob.Nothing);
        Assert.Contains("Crank: stop 1 of 2.", (await job.PageAsync("measure")).Text, StringComparison.Ordinal);
        Assert.Contains("Crank: stop 2 of 2.", (await job.PageAsync("measure?valve=I7")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_AClosedJob_HasNoForms()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        AddResult closed = await bench.Database.Jobs.AddAsync(job.Id, new Addition(Guid.NewGuid(), "d", 1000, [new JobClosed(200, "", "", "")]), TestContext.Current.CancellationToken);
        Assert.True(closed.IsSaved, string.Join("; ", closed.Problems));
        FetchedPage page = await job.PageAsync("measure?valve=E1");
        Assert.Empty(page.Document.QuerySelectorAll("main button"));
        Assert.Contains("This job is closed", page.Text, StringComparison.Ordinal);
    }

    private static string Estimate(FetchedPage page) => page.Document.QuerySelector(".estimate")!.TextContent;

    private static string[] Readings(FetchedPage page) => [.. page.Document.QuerySelectorAll(".readings li > span").Select(s => s.TextContent)];

    private static IElement Button(FetchedPage page, string form, string text) =>
        page.Document.QuerySelectorAll<IHtmlFormElement>("form").Single(f => f.QuerySelector("input[name=_handler]")?.GetAttribute("value") == form)
            .QuerySelectorAll("button").First(b => b.TextContent.Trim() == text);

    private static Task<FetchedPage> Press(DemoJob job, FetchedPage page, string form, string text)
    {
        IElement button = Button(page, form, text);
        return FormPost.On(job.Client, page, form).With(button.GetAttribute("name")!, button.GetAttribute("value")).SubmitAsync();
    }
}
