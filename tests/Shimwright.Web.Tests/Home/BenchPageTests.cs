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
        var card = page.Document.QuerySelector(".cards .card")!;
        Assert.Equal($"/jobs/{job}/plan", card.QuerySelector("a")!.GetAttribute("href"));
        Assert.Contains("Plan", card.QuerySelector("strong")!.TextContent, StringComparison.Ordinal);
        Assert.NotNull(card.QuerySelector("time"));
    }

    [Fact]
    public async Task Get_AClosedJob_IsListedWithItsRecord()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        await bench.Database.Jobs.AddAsync(job, new(Guid.NewGuid(), "test", 1000, [new JobClosed(200, "", "", "")]), TestContext.Current.CancellationToken);
        FetchedPage page = await FetchedPage.GetAsync(client, "/");
        Assert.Equal($"/jobs/{job}/record", page.Document.QuerySelector("#closed ~ .rows a")!.GetAttribute("href"));
        Assert.Empty(page.Document.QuerySelectorAll(".cards .card"));
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
        Assert.Equal((50, 1), (first.Document.QuerySelectorAll(".cards .card").Length, second.Document.QuerySelectorAll(".cards .card").Length));
    }
}
