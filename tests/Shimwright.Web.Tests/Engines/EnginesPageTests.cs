using System.Globalization;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Pages.Shell;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Engines;

public class EnginesPageTests
{
    [Fact]
    public async Task Get_NoEngineYet_SaysHowOneIsMade()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/engines");
        Assert.Contains("Add an engine first", page.Text, StringComparison.Ordinal);
        Assert.NotNull(page.Document.QuerySelector("a[href='/engines/new']"));
    }

    [Fact]
    public async Task Get_NothingFound_NamesWhatWasLookedFor()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await DemoEngine.AddAsync(bench);
        FetchedPage page = await FetchedPage.GetAsync(client, "/engines?q=%3Cscript%3Ex");
        Assert.Contains("\"<script>x\"", page.Text, StringComparison.Ordinal);
        Assert.Equal("<script>x", page.Document.QuerySelector("#q")!.GetAttribute("value"));
        Assert.Empty(page.Document.QuerySelectorAll("main script"));
    }

    [Fact]
    public async Task Get_MoreThanAPage_EveryEngineStandsOnOneOfThem()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        EngineCard card = DemoEngine.Setup().Setup!.Card;
        for (int n = 0; n < 60; n++)
        {
            await bench.Database.Engines.AddAsync(
                Guid.NewGuid(), string.Create(CultureInfo.InvariantCulture, $"Engine {n:00}"), card, new CardDetails(), cancel: TestContext.Current.CancellationToken);
        }

        List<string> seen = [];
        string? next = "/engines?q=engine";
        while (next is not null)
        {
            FetchedPage page = await FetchedPage.GetAsync(client, next);
            seen.AddRange(page.Document.QuerySelectorAll(".rows a").Select(a => a.TextContent));
            next = page.Document.QuerySelector("a[rel=next]")?.GetAttribute("href");
        }

        Assert.Equal(60, seen.Count);
        Assert.Equal(60, seen.Distinct().Count());
    }

    [Theory]
    [InlineData(0, 7, 1, 0)]
    [InlineData(26, 2, 2, 25)]
    [InlineData(26, 99, 2, 25)]
    [InlineData(26, -1, 1, 0)]
    [InlineData(25, 2, 1, 0)]
    public void Pager_APage_IsOneThatIsThere(int count, int page, int shown, int skip)
    {
        var pager = new Pager(count, 25, page);
        Assert.Equal(shown, pager.Page);
        Assert.Equal(skip, pager.Skip);
    }

    /// <summary>A clock that ran back is asked about, with both figures, and started only with an answer.</summary>
    [Fact]
    public async Task Start_ClockBelowTheLastOne_AsksAndTakesTheAnswer()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (Guid engine, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        await bench.Database.Jobs.AddAsync(job, new(Guid.NewGuid(), "test", 1000, [new Shimwright.Jobs.Facts.JobClosed(200, "", "", "")]), TestContext.Current.CancellationToken);
        FetchedPage page = await (await FormPost.OnAsync(client, $"/engines/{engine}", "start")).With("Start.Clock", "150").SubmitAsync();
        Assert.Equal(System.Net.HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("found 150 h, and the last one known is 200 h", page.Document.QuerySelector("#ran-back")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("150", page.Document.QuerySelector("input[name='Start.Clock']")!.GetAttribute("value"));
        Assert.Equal(["meter", "right"], page.Document.QuerySelectorAll("button[name='Start.Answer']").Select(b => b.GetAttribute("value")));
        Assert.Equal(0, await bench.Database.Jobs.CountOpenAsync(TestContext.Current.CancellationToken));
        FetchedPage started = await FormPost.On(client, page, "start").With("Start.Answer", "meter").SubmitAsync();
        Assert.EndsWith("/measure", started.Address.AbsolutePath, StringComparison.Ordinal);
    }
}
