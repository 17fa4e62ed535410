using System.Net;
using System.Xml.Linq;
using Shimwright.Bench.Drawer;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Labels;

public class LabelPageTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task DrawerLabels_AllAndPicked_AreOnTheSheetThatTheFormChose()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Assert.Contains("No shims in stock.", (await FetchedPage.GetAsync(client, "/drawer/labels")).Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(new Uri("/drawer/labels.pdf", UriKind.Relative), Cancel)).StatusCode);
        ShimSize[] sizes = [.. Enumerable.Range(0, 8).Select(k => ShimSize.Of(9.48, 2.4 + (k * 0.05), k % 2 == 0 ? "marked" : "micrometer"))];
        await bench.Database.Drawer.CountAsync([.. sizes.Select((s, k) => new ShimCount(s, k == 7 ? 0 : 2, $"A{k} <&>"))], new(Guid.NewGuid(), "desk"), Cancel);

        // A size that has run out has no compartment to label.
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/labels?layout=a4-2x7&begin=10&frame=1&what=all&pick=9480-2400-marked");
        Assert.Contains("7 labels on 2 sheets", page.Text, StringComparison.Ordinal);
        Assert.Contains("works on this machine only", page.Text, StringComparison.Ordinal);
        string[] pictures = [.. page.Document.QuerySelectorAll(".paper-a4 img").Select(i => i.GetAttribute("src")!)];
        XElement[] sheets = [.. await Task.WhenAll(pictures.Select(SheetAsync))];
        Assert.Equal([5, 2], sheets.Select(s => s.Elements().Count(e => e.Attribute("class")?.Value == "code")));
        Assert.Equal([5, 2], sheets.Select(s => s.Elements().Count(e => e.Attribute("class")?.Value == "frame")));
        Assert.Contains("A0 <&>", sheets[0].Elements().Select(e => e.Value));

        FetchedPage picked = await FetchedPage.GetAsync(client, "/drawer/labels?layout=a4-2x7&begin=1&what=picked&pick=9480-2450-micrometer&pick=9480-2750-micrometer&pick=1-1-marked");
        Assert.Contains("2 labels on 1 sheet", picked.Text, StringComparison.Ordinal);
        XElement sheet = await SheetAsync(picked.Document.QuerySelector(".label-sheet img")!.GetAttribute("src")!);
        Assert.Equal(["2.45 mm", "2.75 mm"], sheet.Elements().Where(e => e.Attribute("font-weight")?.Value == "700" && e.Value.EndsWith("mm", StringComparison.Ordinal)).Select(e => e.Value));
        HttpResponseMessage pdf = await client.GetAsync(new Uri(picked.Document.QuerySelector("a[download]")!.GetAttribute("href")!, UriKind.Relative), Cancel);
        Assert.Equal("application/pdf", pdf.Content.Headers.ContentType!.MediaType);

        async Task<XElement> SheetAsync(string address) => XDocument.Parse(await client.GetStringAsync(new Uri(address, UriKind.Relative), Cancel)).Root!;
    }

    [Theory]
    [InlineData("layout=none", "choose a sheet of the list")]
    [InlineData("begin=0", "enter a whole number from 1 to 21")]
    [InlineData("begin=22", "enter a whole number from 1 to 21")]
    [InlineData("begin=1.5", "enter a whole number from 1 to 21")]
    [InlineData("layout=tape-12&begin=2", "enter 1: a roll has one label")]
    public async Task Labels_WhatCannotBe_IsRefusedWithTheRule(string query, string rule)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await DemoEngine.AddAsync(bench);
        FetchedPage page = await FetchedPage.GetAsync(client, $"/engines/labels?{query}");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(rule, page.Text, StringComparison.Ordinal);
        HttpResponseMessage file = await client.GetAsync(new Uri($"/engines/labels.svg?{query}", UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, file.StatusCode);
        Assert.Contains(rule, await file.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Sticker_OfAnEngine_IsPickedByItsPageThoughItIsRetired()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench);
        await DemoEngine.AddAsync(bench);
        Assert.Contains("2 labels on 1 sheet", (await FetchedPage.GetAsync(client, "/engines/labels")).Text, StringComparison.Ordinal);
        await bench.Database.Engines.RetireAsync(engine, isRetired: true, Cancel);
        FetchedPage page = await FetchedPage.GetAsync(client, $"/engines/{engine}");
        FetchedPage sticker = await FetchedPage.GetAsync(client, page.Document.QuerySelectorAll("a").Single(a => a.TextContent == "Sticker").GetAttribute("href")!);
        Assert.Contains("1 label on 1 sheet", sticker.Text, StringComparison.Ordinal);
        Assert.Equal([engine.ToString()], sticker.Document.QuerySelectorAll("input[name=pick][checked]").Select(i => i.GetAttribute("value")));
        Assert.Contains("Nothing picked.", (await FetchedPage.GetAsync(client, "/engines/labels?what=picked")).Text, StringComparison.Ordinal);
    }
}
