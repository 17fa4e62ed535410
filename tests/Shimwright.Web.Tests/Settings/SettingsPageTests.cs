using System.Net;
using Shimwright.Domain.Advice;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Settings;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Settings;

public class SettingsPageTests
{
    [Theory]
    [InlineData(LengthUnit.Mm)]
    [InlineData(LengthUnit.In)]
    [InlineData(LengthUnit.Thou)]
    public void Read_SettingsLeftAlone_ComeBackAsTheyWere(LengthUnit unit)
    {
        BenchSettings settings = new() { SizesToBuy = [new(1.2, 3.5, 0.05, 8), new(2.0, 2.8, 0.025, 11.5)], Blades = [0.04, 0.127, 0.0635], Minutes = new(0.5, null, 0.2, 0.7, null, 10) };
        var lengths = new LengthStyle(unit);
        (BenchSettings read, var problems) = new SettingsFormReader(lengths).Read(SettingsFormReader.Fill(new(3, settings), lengths), settings);
        Assert.Empty(problems);
        Assert.Equal(settings.ToJson(), read.ToJson());
    }

    [Fact]
    public async Task Save_OtherBladesAndMinutes_HoldForTheNextJob()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage saved = await (await FormPost.OnAsync(client, "/settings", "bench"))
            .With("Bench.Blades", "0,05 0,10\r\n5thou").With("Bench.Redo", "2 h").With("Bench.Kits[1].From", "2.0").With("Bench.Kits[1].To", "3.0")
            .With("Bench.Kits[1].Step", "0.1").With("Bench.Kits[1].Price", "4,5").SubmitAsync();
        Assert.Contains("Saved.", saved.Text, StringComparison.Ordinal);
        BenchSettings settings = await CurrentAsync(bench);
        Assert.Equal([0.05, 0.10, 0.127], settings.Blades);
        Assert.Equal(120, settings.Redo);
        Assert.Equal(new SizesToBuy(2, 3, 0.1, 4.5), settings.SizesToBuy[1]);

        Guid engine = await DemoEngine.AddAsync(bench);
        await (await FormPost.OnAsync(client, $"/engines/{engine}", "start")).With("Start.Clock", "1").SubmitAsync();
        Guid job = (await bench.Database.Jobs.OpenAsync(0, 1, TestContext.Current.CancellationToken))[0].Id;
        Assert.Equal([0.05, 0.10, 0.127], (await bench.Database.Jobs.FindAsync(job, TestContext.Current.CancellationToken))!.Sheet.Setup.Start.Blades);
    }

    /// <summary>Minutes of one's own reach the next job; an empty field is something that cannot be done, and stays empty.</summary>
    [Fact]
    public async Task Save_MinutesOfReadings_HoldForTheNextJobAndEmptyCannotBeDone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await (await FormPost.OnAsync(client, "/settings", "bench")).With("Bench.TakesBlade", "0,4").With("Bench.TakesDepth", "").With("Bench.TakesDryFit", "0.5 h").SubmitAsync();
        Assert.Equal(new ActionTimes(0.4, 1, 0.2, 0.7, null, 30), (await CurrentAsync(bench)).Minutes);
        FetchedPage page = await FetchedPage.GetAsync(client, "/settings");
        Assert.Equal(("0.4", ""), (page.Document.QuerySelector("[name='Bench.TakesBlade']")!.GetAttribute("value"), page.Document.QuerySelector("[name='Bench.TakesDepth']")!.GetAttribute("value") ?? ""));
        Guid engine = await DemoEngine.AddAsync(bench);
        await (await FormPost.OnAsync(client, $"/engines/{engine}", "start")).With("Start.Clock", "1").SubmitAsync();
        Guid job = (await bench.Database.Jobs.OpenAsync(0, 1, TestContext.Current.CancellationToken))[0].Id;
        // Before a shim is entered there is none that could be measured.
        Assert.Equal(new ActionMinutes(0.4, 1, 0.2, null, null, 30), (await bench.Database.Jobs.FindAsync(job, TestContext.Current.CancellationToken))!.Sheet.Setup.Start.ToAdviceRequest().Minutes);
    }

    [Fact]
    public async Task Save_SeveralThingsWrong_NamesEachAndKeepsWhatWasTyped()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await (await FormPost.OnAsync(client, "/settings", "bench"))
            .With("Bench.Blades", "0.05 thick").With("Bench.Redo", "soon").With("Bench.Slip", "").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        string alert = page.Document.QuerySelector("[role=alert]")!.TextContent;
        Assert.Contains("Blades of the set: found \"thick\"", alert, StringComparison.Ordinal);
        Assert.Contains("Rework round, minutes: found \"soon\"", alert, StringComparison.Ordinal);
        Assert.Contains("Share of misreadings: nothing was entered", alert, StringComparison.Ordinal);
        Assert.Equal("soon", page.Document.QuerySelector("input[name='Bench.Redo']")!.GetAttribute("value"));
        Assert.Equal(0, (await bench.Database.Settings.CurrentAsync(TestContext.Current.CancellationToken)).Version);
    }

    [Theory]
    [InlineData("Bench.Firm", "0.1", "Won't enter to firm")]
    [InlineData("Bench.Blades", "5", "Blades of the set")]
    [InlineData("Bench.Risk", "2", "Risk limit for the next check")]
    [InlineData("Bench.Kits[0].Step", "0", "Sizes you can buy, row 1, step")]
    [InlineData("Bench.Lift", "-1", "Camshaft off and on")]
    [InlineData("Bench.TakesBlade", "-1", "One blade")]
    [InlineData("Bench.TakesDryFit", "200000", "Dry fit")]
    public async Task Save_OutOfRange_IsSaidUnderTheField(string field, string value, string label)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await (await FormPost.OnAsync(client, "/settings", "bench")).With(field, value).SubmitAsync();
        Assert.Contains(label, page.Document.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        // What is wrong must not hide in a fold.
        Assert.True(page.Document.QuerySelector($"[name='{field}'][aria-invalid=true]")!.Closest("details")!.HasAttribute("open"));
    }

    [Fact]
    public async Task Save_TheLook_ChangesUnitAndTheme()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await (await FormPost.OnAsync(client, "/settings", "look"))
            .With("Look.Unit", "thou").With("Look.Theme", "dark").With("Look.Currency", "credits").SubmitAsync();
        Assert.Equal("dark", page.Document.DocumentElement.GetAttribute("data-theme"));
        Assert.Contains("0.05mm", page.Document.QuerySelector("textarea[name='Bench.Blades']")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("thou", (await CurrentAsync(bench)).Unit);
    }

    [Fact]
    public async Task Save_ChangedMeanwhile_SavesNothingUntilItIsSentAgain()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FormPost mine = (await FormPost.OnAsync(client, "/settings", "bench")).With("Bench.Swap", "7");
        await bench.Database.Settings.SaveAsync(new BenchSettings { Redo = 45 }, 0, "other", TestContext.Current.CancellationToken);
        FetchedPage conflict = await mine.SubmitAsync();
        Assert.Equal(HttpStatusCode.Conflict, conflict.Status);
        Assert.Equal(3, (await CurrentAsync(bench)).Swap);
        await FormPost.On(client, conflict, "bench").SubmitAsync();
        Assert.Equal(7, (await CurrentAsync(bench)).Swap);
    }

    [Fact]
    public async Task Reset_OwnFigures_BecomeTheFirstOnesAndTheUnitStays()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await bench.Database.Settings.SaveAsync(new BenchSettings { Redo = 45, Unit = "in" }, 0, "other", TestContext.Current.CancellationToken);
        await (await FormPost.OnAsync(client, "/settings", "reset")).SubmitAsync();
        Assert.Equal(new BenchSettings { Unit = "in" }.ToJson(), (await CurrentAsync(bench)).ToJson());
    }

    private static async Task<BenchSettings> CurrentAsync(RunningBench bench) =>
        (await bench.Database.Settings.CurrentAsync(TestContext.Current.CancellationToken)).Settings;
}
