using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Advising;

public class NextPageTests
{
    private const string Single = "01-flood-pump.json";

    /// <summary>The line on top is the best of what the command says, and skipping it shows the one after.</summary>
    [Fact]
    public async Task Get_PlanOrNext_ShowsTheBestLineAndAfterASkipTheOther()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck)).WithoutScript();
        NextRow[] expected = [.. NextResult.Of(JobSheetFile.Read((await job.StoredAsync()).Sheet, JobPurpose.Next).Job!).Next.Where(n => n.Do != "dryFit")];
        Assert.Equal("depth", expected[0].Do);
        Assert.StartsWith(expected[0].Words, await TopAsync(job, "plan"), StringComparison.Ordinal);
        Assert.StartsWith(expected[0].Words, await TopAsync(job, "next"), StringComparison.Ordinal);
        Assert.StartsWith(expected[1].Words, await TopAsync(job, "next?skip=1"), StringComparison.Ordinal);
        Assert.StartsWith("Nothing else pays.", await TopAsync(job, "next?skip=99"), StringComparison.Ordinal);
        Assert.Equal(expected.Select(n => n.Words), (await job.PageAsync("next")).Document.QuerySelectorAll("table tbody th").Select(t => t.TextContent));
    }

    /// <summary>While a valve is still to be felt its camshaft is on: a blade comes before a depth, whatever the depth would save.</summary>
    [Fact]
    public async Task Get_ValveNotFeltYet_NamesABladeThatIsChosenOnThePage()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, f => f is ReadingFact { Part: SheetPart.Check, Valve: not "E2" })).WithoutScript();
        FetchedPage page = await job.PageAsync("measure");
        Assert.StartsWith("Try ", page.Document.QuerySelector("#next-thing strong")!.TextContent, StringComparison.Ordinal);
        string link = page.Document.QuerySelector("#next-thing a.first")!.GetAttribute("href")!;
        string blade = System.Web.HttpUtility.ParseQueryString(new Uri(job.Client.BaseAddress!, link).Query)["blade"]!;
        FetchedPage there = await FetchedPage.GetAsync(job.Client, link.Split('#')[0]);
        Assert.Equal(blade, there.Document.QuerySelector("input[name='Tap.Blade'][checked]")!.GetAttribute("value"));
    }

    /// <summary>A device that runs the script gets the page at once and fetches the line; one that does not has it in the page.</summary>
    [Fact]
    public async Task Get_DeviceWithScript_LeavesTheLineToBeFetched()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck)).WithoutScript();
        job.Client.DefaultRequestHeaders.Add("Cookie", "script=1");
        FetchedPage page = await job.PageAsync("plan");
        string from = page.Document.QuerySelector("#next-thing")!.GetAttribute("data-part")!;
        Assert.Null(page.Document.QuerySelector("#next-thing strong"));
        FetchedPage part = await FetchedPage.GetAsync(job.Client, from);
        Assert.NotNull(part.Document.QuerySelector("#next-thing strong"));
        Assert.Null(part.Document.QuerySelector("[data-part]"));
    }

    /// <summary>The blade that the line names at the valve that is open is the suggested one, and no other is.</summary>
    [Theory]
    [InlineData("measure")]
    [InlineData("recheck")]
    public async Task Get_TheValveThatTheLineNames_SuggestsItsBlade(string page)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, page == "recheck" ? _ => true : f => f is ReadingFact { Part: SheetPart.Check, Valve: not "E2" })).WithoutScript();
        System.Collections.Specialized.NameValueCollection line = LinkOf(job, await job.PageAsync(page));
        FetchedPage there = await job.PageAsync($"{page}?valve={line["valve"]}");
        Assert.Equal((line["blade"], 1), (Chosen(there), there.Document.QuerySelectorAll(".chips label.suggested").Length));
        Assert.Contains("It pays here.", there.Text, StringComparison.Ordinal);
        // At any other valve the page suggests on its own.
        Assert.DoesNotContain("it pays to try it here", (await job.PageAsync($"{page}?valve={(line["valve"] == "I2" ? "E1" : "I2")}")).Text, StringComparison.Ordinal);
    }

    /// <summary>Where the line is fetched later the page suggests on its own, until it is opened by the line's link.</summary>
    [Fact]
    public async Task Get_DeviceWithScript_SuggestsTheBladeOfTheLineOnlyByItsLink()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, f => f is ReadingFact { Part: SheetPart.Check, Valve: not "E2" })).WithoutScript();
        System.Collections.Specialized.NameValueCollection line = LinkOf(job, await job.PageAsync("next"));
        job.Client.DefaultRequestHeaders.Add("Cookie", "script=1");
        FetchedPage alone = await job.PageAsync($"measure?valve={line["valve"]}");
        Assert.NotEqual(line["blade"], Chosen(alone));
        FetchedPage linked = await job.PageAsync($"measure?valve={line["valve"]}&blade={line["blade"]}");
        Assert.Equal((line["blade"], 1), (Chosen(linked), linked.Document.QuerySelectorAll(".chips label.suggested").Length));
    }

    [Fact]
    public async Task Get_PlanAccepted_AsksForNothingMore()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck)).WithoutScript();
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        Assert.Null((await job.PageAsync("plan")).Document.QuerySelector("#next-thing"));
        Assert.Contains("carry it out", (await job.PageAsync("next")).Text, StringComparison.Ordinal);
    }

    private static System.Collections.Specialized.NameValueCollection LinkOf(DemoJob job, FetchedPage page) => System.Web.HttpUtility.ParseQueryString(
        new Uri(job.Client.BaseAddress!, page.Document.QuerySelector("#next-thing a.first")!.GetAttribute("href")!).Query);

    private static string? Chosen(FetchedPage page) => page.Document.QuerySelector("input[name='Tap.Blade'][checked]")?.GetAttribute("value");

    private static async Task<string> TopAsync(DemoJob job, string page) =>
        (await job.PageAsync(page)).Document.QuerySelector("#next-thing p")!.TextContent.Trim();
}
