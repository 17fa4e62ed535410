using System.Net;
using AngleSharp.Dom;
using Shimwright.Jobs.Settings;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Drawer;

public class KitsPageTests
{
    private static readonly KitOnOffer Fine = new("Fine box", 9.48, 2.0, 3.0, 0.025, 3, 180), Coarse = new("Coarse box", 9.48, 2.0, 3.0, 0.1, 3, 60), Dear = new("Dear box", 9.48, 2.0, 3.0, 0.1, 3, 75);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Kits_NothingKept_SaysSoAndTakesTheFirst()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/kits");
        Assert.Contains("Add a kit as the seller lists it", page.Text, StringComparison.Ordinal);
        FetchedPage kept = await Filled(FormPost.On(client, page, "keep")).SubmitAsync();
        Assert.Equal(HttpStatusCode.OK, kept.Status);
        Assert.Equal([new KitOnOffer("Box", 9.48, 2, 3, 0.05, 2, 90.5)], (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.KitsOffered);
        Assert.Contains("2.00 to 3.00 mm in steps of 0.05, 2 of each: 42 shims.", kept.Text, StringComparison.Ordinal);
        Assert.Contains("No engine needs shims of this diameter", kept.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Keep.Name", "", "give it a name")]
    [InlineData("Keep.Diameter", "nine", "found \"nine\"")]
    [InlineData("Keep.From", "0.1", "allowed is 0.3 mm to 12 mm")]
    [InlineData("Keep.To", "1", "allowed is the first size to 12 mm")]
    [InlineData("Keep.Step", "0", "allowed is 0.001 mm to 12 mm")]
    [InlineData("Keep.Each", "few", "enter a whole number of 1 or more")]
    [InlineData("Keep.Each", "0", "allowed are 1 to 1000")]
    [InlineData("Keep.Price", "-1", "allowed is 0 to 1000000")]
    public async Task Keep_WhatCannotBe_IsRefusedAndStaysInTheField(string field, string typed, string words)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await Filled(await FormPost.OnAsync(client, "/drawer/kits", "keep")).With(field, typed).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(typed, page.Document.QuerySelector($"[name='{field}']")!.GetAttribute("value") ?? "");
        Assert.Empty((await bench.Database.Settings.CurrentAsync(Cancel)).Settings.KitsOffered);
    }

    [Fact]
    public async Task Kits_Compared_StandByGainAndTheDominatedOneIsMarked()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        for (int i = 0; i < 3; i++)
        {
            await DueBench.AddAsync(bench, $"Engine {i}");
        }

        await bench.Database.Settings.SaveAsync(new BenchSettings { KitsOffered = [Fine, Coarse, Dear] }, 0, "phone", Cancel);
        await bench.Database.Due.RefreshStaleAsync(10, Cancel);
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/kits?worth=10");
        IElement[] cards = [.. page.Document.QuerySelectorAll(".kits > li")];
        Assert.Equal(["Coarse box", "Dear box", "Fine box"], cards.Select(c => c.QuerySelector("summary strong")!.TextContent));
        Assert.Equal([false, true, false], cards.Select(c => c.QuerySelector(".status") is not null));
        FetchedPage dear = await FetchedPage.GetAsync(client, "/drawer/kits?worth=1000");
        Assert.Equal("Fine box", dear.Document.QuerySelector(".kits summary strong")!.TextContent);
        FetchedPage wrong = await FetchedPage.GetAsync(client, "/drawer/kits?worth=-3");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("allowed is 0 to 1000000", wrong.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TakeOut_ThenKeepAgain_IsBackAsItWas()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await bench.Database.Settings.SaveAsync(new BenchSettings { KitsOffered = [Fine, Coarse] }, 0, "phone", Cancel);
        FetchedPage before = await FetchedPage.GetAsync(client, "/drawer/kits");
        FetchedPage gone = await FormPost.On(client, before, "out-1").SubmitAsync();
        Assert.Contains("\"Coarse box\" is removed", gone.Text, StringComparison.Ordinal);
        Assert.Equal([Fine], (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.KitsOffered);

        FetchedPage stale = await FormPost.On(client, before, "out-0").SubmitAsync();
        Assert.Equal(HttpStatusCode.Conflict, stale.Status);
        Assert.Contains("changed on another device", stale.Text, StringComparison.Ordinal);

        await FormPost.On(client, gone, "keep").SubmitAsync();
        Assert.Equal([Fine, Coarse], (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.KitsOffered);
    }

    private static FormPost Filled(FormPost form) => form.With("Keep.Name", "Box").With("Keep.Diameter", "9,48").With("Keep.From", "2").With("Keep.To", "3 mm")
        .With("Keep.Step", "0.05").With("Keep.Each", "2").With("Keep.Price", "90,5");
}
