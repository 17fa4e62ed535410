using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Home;

public class BenchPageTests
{
    [Fact]
    public async Task Get_AnEmptyBench_ShowsTheTwoSteps()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/");
        Assert.Equal(2, page.Document.QuerySelectorAll(".steps li").Length);
        Assert.NotNull(page.Document.QuerySelector("a[href='/engines/new']"));
        Assert.NotNull(page.Document.QuerySelector("a[href='/jobs/take-in']"));
    }

    [Fact]
    public async Task Get_AnEngineButNoJob_LeadsToTheEngines()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await DemoEngine.AddAsync(bench);
        FetchedPage page = await FetchedPage.GetAsync(client, "/");
        Assert.Contains("No job is open.", page.Text, StringComparison.Ordinal);
        Assert.NotNull(page.Document.QuerySelector("a.first[href='/engines']"));
    }

    [Fact]
    public async Task Get_AJobInProgress_ShowsItsStageAndLeadsToTheNextStep()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        FetchedPage page = await FetchedPage.GetAsync(client, "/");
        var line = Assert.Single(page.Document.QuerySelectorAll(".work li"));
        Assert.Equal($"/jobs/{job}/plan", line.QuerySelector("a")!.GetAttribute("href"));
        Assert.Equal("Plan", line.QuerySelector(".stage")!.TextContent);
        Assert.Contains("Accept a plan", line.TextContent, StringComparison.Ordinal);
        Assert.EndsWith("today", line.QuerySelector("time")!.TextContent, StringComparison.Ordinal);
        // Starting another comes before the list.
        Assert.Equal("/engines", page.Document.QuerySelector("main a")!.GetAttribute("href"));
    }

    [Fact]
    public async Task Get_TwoJobs_TheOneWorkedOnLastIsOnTop()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid first) = await DemoEngine.AddWithJobAsync(bench);
        (_, Guid second) = await DemoEngine.AddWithJobAsync(bench);
        Assert.StartsWith($"/jobs/{second}/", await TopAsync(), StringComparison.Ordinal);
        await bench.Database.Jobs.AddAsync(first, new(Guid.NewGuid(), "test", 1000, [new JobNoted("worked on")]), TestContext.Current.CancellationToken);
        Assert.StartsWith($"/jobs/{first}/", await TopAsync(), StringComparison.Ordinal);

        async Task<string> TopAsync() => (await FetchedPage.GetAsync(client, "/")).Document.QuerySelector(".work a")!.GetAttribute("href")!;
    }

    [Fact]
    public async Task Get_AClosedJob_IsListedWithItsRecord()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        await bench.Database.Jobs.AddAsync(job, new(Guid.NewGuid(), "test", 1000, [new JobClosed(200, "", "", "")]), TestContext.Current.CancellationToken);
        FetchedPage page = await FetchedPage.GetAsync(client, "/");
        Assert.Equal($"/jobs/{job}/record", Assert.Single(page.Document.QuerySelectorAll(".work a")).GetAttribute("href"));
        Assert.NotNull(page.Document.QuerySelector("details[open]"));
    }

    [Fact]
    public async Task Get_MoreThanFiftyJobs_TheRestIsOnTheNextPage()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench);
        JobSetup setup = DemoEngine.Setup().Setup!;
        for (int n = 0; n < 51; n++)
        {
            await bench.Database.Jobs.StartAsync(engine, setup, [], Guid.NewGuid(), "test", TestContext.Current.CancellationToken);
        }

        FetchedPage first = await FetchedPage.GetAsync(client, "/");
        FetchedPage second = await FetchedPage.GetAsync(client, first.Document.QuerySelector("a[rel=next]")!.GetAttribute("href")!);
        Assert.Equal((50, 1), (first.Document.QuerySelectorAll(".work time").Length, second.Document.QuerySelectorAll(".work time").Length));
    }
}
