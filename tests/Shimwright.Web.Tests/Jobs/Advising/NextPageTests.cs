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
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
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
        using DemoJob job = await DemoJob.StartAsync(bench, Single, f => f is ReadingFact { Part: SheetPart.Check, Valve: not "E2" });
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
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        job.Client.DefaultRequestHeaders.Add("Cookie", "script=1");
        FetchedPage page = await job.PageAsync("plan");
        string from = page.Document.QuerySelector("#next-thing")!.GetAttribute("data-part")!;
        Assert.Null(page.Document.QuerySelector("#next-thing strong"));
        FetchedPage part = await FetchedPage.GetAsync(job.Client, from);
        Assert.NotNull(part.Document.QuerySelector("#next-thing strong"));
        Assert.Null(part.Document.QuerySelector("[data-part]"));
    }

    [Fact]
    public async Task Get_PlanAccepted_AsksForNothingMore()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        Assert.Null((await job.PageAsync("plan")).Document.QuerySelector("#next-thing"));
        Assert.Contains("carry it out", (await job.PageAsync("next")).Text, StringComparison.Ordinal);
    }

    private static async Task<string> TopAsync(DemoJob job, string page) =>
        (await job.PageAsync(page)).Document.QuerySelector("#next-thing p")!.TextContent.Trim();
}
