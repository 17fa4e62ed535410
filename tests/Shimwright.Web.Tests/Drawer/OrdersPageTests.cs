using System.Globalization;
using System.Net;
using AngleSharp.Dom;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Orders;
using Shimwright.Jobs.Settings;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Drawer;

public class OrdersPageTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Orders_NothingOnTheBench_SaysWhatIsMissing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/orders");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("An engine counts once a job on it is closed", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.Document.QuerySelectorAll(".orders"));
        Assert.Null(page.Document.QuerySelector(".do-now"));
    }

    [Fact]
    public async Task Orders_EngineLeftOutside_ShowsTheSizeItsLawAndTheCostAsTheStoreHasThem()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await DueBench.AddAsync(bench, "Counted", doubt: 0.02);
        await DueBench.AddAsync(bench, "Left out", new CardDetails());
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/orders");
        DiameterOrders orders = Assert.Single((await bench.Database.Orders.ListAsync(cancel: Cancel)).Diameters);
        Assert.Equal(1, orders.Engines);
        var line = orders.Orders.Lines.MaxBy(l => l.Wanted.Mean)!;
        IElement row = page.Document.QuerySelectorAll(".orders > li").Single(r => r.QuerySelector("summary strong")!.TextContent.Trim() == line.Size.ToString("0.00", CultureInfo.InvariantCulture));
        Assert.Equal("order 1, 0 free", row.QuerySelector(".go")!.TextContent.Trim());
        string[] facts = [.. row.QuerySelectorAll("dd").Select(c => c.TextContent.Trim())];
        Assert.StartsWith(line.Wanted.Mean.ToString("0.0", CultureInfo.InvariantCulture), facts[0], StringComparison.Ordinal);
        Assert.Equal("1", facts[1]);
        Assert.Equal("order", row.ClassName);
        Assert.Contains("Chance of each count: 0: ", row.QuerySelector("svg.law")!.GetAttribute("aria-label"), StringComparison.Ordinal);
        Assert.NotEmpty(row.QuerySelectorAll("svg.law rect.covered"));
        Assert.Contains(orders.Orders.Cost.ToString("0.00", CultureInfo.InvariantCulture), page.Document.QuerySelector(".do-now")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("/engines/", page.Document.QuerySelector("[aria-labelledby=not-counted] a")!.GetAttribute("href")![..9]);
        Assert.Contains("Shim diameter not set", page.Text, StringComparison.Ordinal);
        Assert.Contains("Enough for 1 engine", page.Text, StringComparison.Ordinal);

        string file = await client.GetStringAsync(new Uri(page.Document.QuerySelector("a[download]")!.GetAttribute("href")!, UriKind.Relative), Cancel);
        string[] lines = file.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("diameter_mm,thickness_mm,wanted,free,level,order,price,cost,covered_now,covered_then", lines[0]);
        Assert.Contains(lines, l => l.StartsWith(string.Create(CultureInfo.InvariantCulture, $"9.48,{line.Size:0.000},{line.Wanted.Mean:0.000},0,1,1,8,8,"), StringComparison.Ordinal));
        Assert.Equal(page.Document.QuerySelectorAll(".orders > li").Length, lines.Length - 1);
        // What to order comes first.
        string?[] looks = [.. page.Document.QuerySelectorAll(".orders > li").Select(l => l.ClassName)];
        Assert.Equal(looks.OrderBy(l => l is null), looks);
    }

    [Fact]
    public async Task Orders_HigherLevelAndShimsInTheDrawer_OrdersMoreThenLess()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await DueBench.AddAsync(bench, "Counted", doubt: 0.02);
        int Ordered(FetchedPage page) => int.Parse(page.Document.QuerySelector(".orders + p strong")!.TextContent.Split(' ', ',')[1], CultureInfo.InvariantCulture);
        int usual = Ordered(await FetchedPage.GetAsync(client, "/drawer/orders?level=0.5"));
        FetchedPage sure = await FetchedPage.GetAsync(client, "/drawer/orders?days=30&level=0,995");
        Assert.True(Ordered(sure) > usual);
        Assert.Equal("0,995", sure.Document.QuerySelector("[name=level]")!.GetAttribute("value"));
        double wanted = Assert.Single((await bench.Database.Orders.ListAsync(serviceLevel: 0.5, cancel: Cancel)).Diameters).Orders.Lines.First(l => l.ToOrder > 0).Size;
        await bench.Database.Drawer.AddAsync(new(ShimSize.Of(9.48, wanted, "marked"), 2), new(Guid.NewGuid(), "phone"), Cancel);
        Assert.Equal(usual - 1, Ordered(await FetchedPage.GetAsync(client, "/drawer/orders?level=0.5")));
    }

    [Theory]
    [InlineData("days=0", "enter a whole number of days from 1 to 3650")]
    [InlineData("days=2.5", "found 2.5")]
    [InlineData("days=soon", "found \"soon\"")]
    [InlineData("level=1.5", "enter a chance from 0 to 0.999")]
    [InlineData("level=sure", "found \"sure\"")]
    public async Task Orders_WhatCannotBeAsked_IsSaidAndShownAsUsual(string query, string words)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/orders?" + query);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(query.Split('=')[1], page.Document.QuerySelector($"[name={query.Split('=')[0]}]")!.GetAttribute("value"));
        using HttpResponseMessage file = await client.GetAsync(new Uri("/drawer/orders.csv?" + query, UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, file.StatusCode);
    }

    [Fact]
    public async Task Orders_NoSizesToBuyAndAnEmptyDrawer_SaysWhereSizesAreSaid()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await bench.Database.Settings.SaveAsync(new BenchSettings { SizesToBuy = [] }, 0, "phone", Cancel);
        await DueBench.AddAsync(bench, "Counted");
        Assert.Contains("No size you can buy or have would do", (await FetchedPage.GetAsync(client, "/drawer/orders")).Text, StringComparison.Ordinal);
        await bench.Database.Drawer.AddAsync(new(ShimSize.Of(9.48, 2.42, "marked"), 1), new(Guid.NewGuid(), "phone"), Cancel);
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/orders?level=0.999");
        Assert.Equal("2.42", page.Document.QuerySelector(".orders summary strong")!.TextContent.Trim());
    }
}
