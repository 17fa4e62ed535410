using System.Net;
using Shimwright.Bench.Engines;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Engines;

public class CardPageTests
{
    [Fact]
    public async Task Save_AChange_IsOnTheCard()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid id = await DemoEngine.AddAsync(bench);
        FetchedPage engine = await (await FormPost.OnAsync(client, $"/engines/{id}/card", "card"))
            .With("Card.Name", "Loaner no. 9").With("Card.Valves[0].High", "0,19").With("Card.Access[0].Minutes", "0.5 h").With("Card.ShimDiameter", "7,48").SubmitAsync();
        Assert.Equal($"/engines/{id}", engine.Address.AbsolutePath);
        StoredEngine stored = await KeptAsync(bench, id);
        Assert.Equal("Loaner no. 9", stored.Card.Engine.Name);
        Assert.Equal(0.19, stored.Card.Engine.Valves[0].Band.High);
        Assert.Equal(30, stored.Details.AccessMinutes[stored.Card.Engine.AccessGroups[0]]);
        Assert.Equal(7.48, stored.Details.ShimDiameter);
    }

    [Fact]
    public async Task Save_SomethingWrong_StaysWithWhatWasTypedAndSavesNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid id = await DemoEngine.AddAsync(bench);
        FetchedPage page = await (await FormPost.OnAsync(client, $"/engines/{id}/card", "card"))
            .With("Card.Ratio", "seven").With("Card.Valves[0].Low", "0,50").With("Card.Notes", "kept & <b>typed</b>").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        string alert = page.Document.QuerySelector("[role=alert]")!.TextContent;
        Assert.Contains("Ratio at the gap: found \"seven\"", alert, StringComparison.Ordinal);
        Assert.Contains("I1, lower limit", alert, StringComparison.Ordinal);
        Assert.Equal("seven", page.Document.QuerySelector("input[name='Card.Ratio']")!.GetAttribute("value"));
        Assert.Equal("true", page.Document.QuerySelector("input[name='Card.Valves[0].Low']")!.GetAttribute("aria-invalid"));
        Assert.Equal("kept & <b>typed</b>", page.Document.QuerySelector("textarea[name='Card.Notes']")!.TextContent);
        Assert.Equal(1, (await KeptAsync(bench, id)).Version);
    }

    [Fact]
    public async Task Save_ChangedMeanwhile_ShowsWhatDiffersAndKeepsMineAtASecondTry()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient one = bench.NewClient();
        using HttpClient other = bench.NewClient();
        Guid id = await DemoEngine.AddAsync(bench);
        FormPost mine = (await FormPost.OnAsync(one, $"/engines/{id}/card", "card")).With("Card.Ratio", "1.1");
        await (await FormPost.OnAsync(other, $"/engines/{id}/card", "card")).With("Card.LimitsFrom", "Manual, page 12").SubmitAsync();

        FetchedPage conflict = await mine.SubmitAsync();
        Assert.Equal(HttpStatusCode.Conflict, conflict.Status);
        string[] rows = [.. conflict.Document.QuerySelectorAll("[role=alert] tbody tr").Select(r => r.TextContent)];
        Assert.Contains(rows, r => r.StartsWith("Ratio", StringComparison.Ordinal));
        Assert.Contains(rows, r => r.Contains("Manual, page 12", StringComparison.Ordinal));
        Assert.Equal(1, (await KeptAsync(bench, id)).Card.Engine.Valvetrain.Ratio);

        FetchedPage saved = await FormPost.On(one, conflict, "card").SubmitAsync();
        Assert.Equal(HttpStatusCode.OK, saved.Status);
        Assert.Equal(1.1, (await KeptAsync(bench, id)).Card.Engine.Valvetrain.Ratio);
    }

    [Theory]
    [InlineData("same", 2)]
    [InlineData("copy", 1)]
    public async Task Another_SameCardOrCopy_IsAddedOnce(string card, int sharedBy)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid id = await DemoEngine.AddAsync(bench, details: new CardDetails { LimitsFrom = "Manual" });
        FormPost another = (await FormPost.OnAsync(client, $"/engines/{id}/another", "another")).With("Another.Name", "Loaner no. 4").With("Another.Card", card);
        await another.SubmitAsync();
        FetchedPage engine = await another.SubmitAsync();
        Assert.Equal("Loaner no. 4", engine.Document.QuerySelector("h1")!.TextContent);
        Assert.Equal(2, await bench.Database.Engines.CountAsync("", TestContext.Current.CancellationToken));
        StoredEngine first = await KeptAsync(bench, id);
        Assert.Equal(sharedBy, first.SharedBy);
        FetchedPage edit = await FetchedPage.GetAsync(client, $"/engines/{id}/card");
        Assert.Equal(sharedBy > 1, edit.Text.Contains("2 engines share this card", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Another_WithoutAName_SaysSo()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid id = await DemoEngine.AddAsync(bench);
        FetchedPage page = await (await FormPost.OnAsync(client, $"/engines/{id}/another", "another")).With("Another.Name", " ").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Equal(1, await bench.Database.Engines.CountAsync("", TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("")]
    [InlineData("/card")]
    [InlineData("/another")]
    public async Task Get_AnEngineThatIsNotThere_IsNotFound(string page)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage answer = await FetchedPage.GetAsync(client, $"/engines/{Guid.NewGuid()}{page}");
        Assert.Equal(HttpStatusCode.NotFound, answer.Status);
        Assert.Contains("Nothing lies here", answer.Text, StringComparison.Ordinal);
    }

    private static async Task<StoredEngine> KeptAsync(RunningBench bench, Guid id) =>
        (await bench.Database.Engines.FindAsync(id, TestContext.Current.CancellationToken))!;
}
