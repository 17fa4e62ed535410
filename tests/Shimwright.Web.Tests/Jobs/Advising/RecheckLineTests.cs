using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Web.Tests.Api;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Advising;

public class RecheckLineTests
{
    private const string Single = "01-flood-pump.json";

    /// <summary>A changed valve that is unread comes first; the line names the blade that the page suggests there, and leads to it.</summary>
    [Fact]
    public async Task Get_ChangedNotRead_NamesTheSuggestedBladeAndLeadsThere()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, f => f is not ReadingFact { Part: SheetPart.Recheck })).WithoutScript();
        FetchedPage page = await job.PageAsync("recheck");
        string suggested = page.Document.QuerySelector("input[name='Tap.Blade'][checked]")!.GetAttribute("value")!;
        string link = page.Document.QuerySelector("#next-thing a.first")!.GetAttribute("href")!;
        Assert.Equal($"/jobs/{job.Id}/recheck?valve=I1&blade={suggested}", link);
        Assert.Contains("A changed valve cannot pass until it is felt again.", Line(page), StringComparison.Ordinal);
        FetchedPage there = await FetchedPage.GetAsync(job.Client, link.Split('#')[0]);
        Assert.Equal(suggested, there.Document.QuerySelector("input[name='Tap.Blade'][checked]")!.GetAttribute("value"));
        Assert.Contains("needed", (await job.PageAsync("next")).Document.QuerySelector("table")!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>Once all are read, page, list and API say what the advice of the next round says of readings.</summary>
    [Fact]
    public async Task Get_AllRead_SaysTheSameOnThePageInTheListAndInTheApi()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, _ => true)).WithoutScript();
        NextResult expected = new JobAnswer((await job.StoredAsync()).Sheet).Next!;
        Assert.StartsWith(expected.First!.Words, Line(await job.PageAsync("recheck")), StringComparison.Ordinal);
        Assert.Equal(expected.Next.Select(n => n.Words), (await job.PageAsync("next")).Document.QuerySelectorAll("table tbody th").Select(t => t.TextContent));
        ApiAnswer api = await new ApiClient(job.Client).GetAsync($"/api/v1/jobs/{job.Id}/next");
        Assert.Equal(ResultJson.Write(expected, indented: false), api.Body);
    }

    [Theory]
    [InlineData("light", "Every valve passes, and nothing more pays.", "See the verdict and close the job.")]
    [InlineData("no", "I1 does not pass, and nothing more pays.", "Start a second round, or close it as it is.")]
    public async Task Get_NothingMorePays_LeadsToClosing(string feel, string words, string tap)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, f => f is not ReadingFact { Part: SheetPart.Recheck, Valve: "I1" })).WithoutScript();
        // Ten times the same leaves nothing to be learnt.
        ReadingFact[] felt = [.. Enumerable.Range(0, 10).Select(_ => new BladeTried(SheetPart.Recheck, "I1", 0.18, 1, feel)), new BucketTurned(SheetPart.Recheck, "I1", feel == "light"),
            .. Enumerable.Range(0, 10).Select(_ => new BladeTried(SheetPart.Recheck, "I1", feel == "light" ? 0.2 : 0.05, 1, "no"))];
        AddResult added = await bench.Database.Jobs.AddAsync(job.Id, new Addition(Guid.NewGuid(), "d", 1000, felt), TestContext.Current.CancellationToken);
        Assert.True(added.IsSaved, string.Join("; ", added.Problems));
        FetchedPage page = await job.PageAsync("recheck");
        Assert.StartsWith(words, Line(page), StringComparison.Ordinal);
        Assert.Equal(($"/jobs/{job.Id}/close", tap), (page.Document.QuerySelector("#next-thing a")!.GetAttribute("href"), page.Document.QuerySelector("#next-thing a")!.TextContent));
    }

    [Fact]
    public async Task Get_DeviceWithScript_LeavesTheLineToBeFetched()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = (await DemoJob.StartAsync(bench, Single, _ => true)).WithoutScript();
        job.Client.DefaultRequestHeaders.Add("Cookie", "script=1");
        FetchedPage page = await job.PageAsync("recheck");
        Assert.Null(page.Document.QuerySelector("#next-thing strong"));
        FetchedPage part = await FetchedPage.GetAsync(job.Client, page.Document.QuerySelector("#next-thing")!.GetAttribute("data-part")!);
        Assert.NotNull(part.Document.QuerySelector("#next-thing strong"));
    }

    private static string Line(FetchedPage page) => page.Document.QuerySelector("#next-thing p")!.TextContent.Trim();
}
