using System.Net;
using AngleSharp.Dom;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Due;

public class DuePageTests
{
    [Fact]
    public async Task Get_NoEngineYet_SaysWhatToDo()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/due");
        Assert.Contains("Its next check shows here once a job on it is closed", page.Text, StringComparison.Ordinal);
        Assert.Contains("not a diagnosis", page.Text, StringComparison.Ordinal);
        Assert.NotNull(page.Document.QuerySelector("nav a[href='/due']"));
    }

    [Fact]
    public async Task Get_UsageUnknown_ShowsTheClockOnlyWithItsRiskCurve()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await CheckedAsync(bench, "09-third-check.json");
        FetchedPage page = await FetchedPage.GetAsync(client, "/due");
        IElement row = page.Document.QuerySelector(".due-engine.clockonly")!;
        Assert.Matches(@"Check by \d+(\.\d)? h", row.TextContent);
        Assert.Matches(@"^at \d+(\.\d)? h$", row.QuerySelector("summary .due-when")!.TextContent);
        Assert.NotNull(row.QuerySelector("a[href$='/wear']"));
        Assert.Contains("Usage not set", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("Chance that any valve is outside its band", row.QuerySelector("svg[role=img] > desc")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, page.Status);
    }

    [Fact]
    public async Task Get_UsageStatedOnTheWearPage_HasADayInListAndCalendar()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await CheckedAsync(bench, "09-third-check.json");
        FormPost form = await FormPost.OnAsync(client, $"/engines/{engine}/wear", "usage");
        FetchedPage wear = await form.With("Usage.PerWeek", "7,5 h").SubmitAsync();
        Assert.Contains("Usage 7.5 h per week", wear.Text, StringComparison.Ordinal);
        Assert.Equal("7.5", wear.Document.QuerySelector("[name='Usage.PerWeek']")!.GetAttribute("value"));
        FetchedPage page = await FetchedPage.GetAsync(client, "/due");
        Assert.Matches(@"(Check by|Overdue since) \d{4}-\d\d-\d\d", page.Document.QuerySelector(".due-engine .inside")!.TextContent);
        using HttpResponseMessage calendar = await client.GetAsync(new Uri("/due/calendar.ics", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal("text/calendar", calendar.Content.Headers.ContentType!.MediaType);
        Assert.Single(Ical.Net.Calendar.Load(await calendar.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!.Events);
    }

    [Theory]
    [InlineData("200", "the hours in a week")]
    [InlineData("0", "enter more than 0")]
    [InlineData("often", "found \"often\"")]
    public async Task Post_UsageThatCannotBe_IsRefusedAndStaysInTheField(string typed, string words)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await CheckedAsync(bench, "09-third-check.json");
        FetchedPage page = await (await FormPost.OnAsync(client, $"/engines/{engine}/wear", "usage")).With("Usage.PerWeek", typed).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(typed, page.Document.QuerySelector("[name='Usage.PerWeek']")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Wear_ClosedJob_ShowsEveryValveAsPictureAndInNumbers()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await CheckedAsync(bench, "09-third-check.json");
        FetchedPage page = await FetchedPage.GetAsync(client, $"/engines/{engine}/wear");
        Assert.Equal(4, page.Document.QuerySelectorAll(".trend svg[role=img]").Length);
        Assert.Equal(4, page.Document.QuerySelectorAll(".moves details details table").Length);
        Assert.Equal(["I1", "I2", "E1", "E2"], page.Document.QuerySelectorAll(".moves summary strong").Select(v => v.TextContent));
        // What would take longer than the engine lasts is said in words, whatever the rate.
        Assert.DoesNotMatch(@"\d{5,} h", page.Document.QuerySelector("main")!.TextContent);
        Assert.Contains("not within this engine's life", page.Text, StringComparison.Ordinal);
        Assert.All(page.Document.QuerySelectorAll(".trend desc"), d => Assert.Contains("at 158 h", d.TextContent, StringComparison.Ordinal));
        Assert.Contains("Loss between checks", page.Text, StringComparison.Ordinal);
        Assert.Contains("103 to 158", page.Text, StringComparison.Ordinal);
        Assert.Contains("compression test settles", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.Document.QuerySelectorAll("main [style]"));
    }

    [Fact]
    public async Task Wear_MilesChosen_CountsInMiles()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await bench.Database.Settings.SaveAsync(new BenchSettings { Distance = "mi" }, 0, "test", TestContext.Current.CancellationToken);
        string file = System.Text.Encoding.UTF8.GetString(DemoEngine.File()).Replace("\"clock\": \"hours\", \"interval\": 50", "\"clock\": \"km\", \"interval\": 16093.44", StringComparison.Ordinal);
        Assert.Contains("16093.44", file, StringComparison.Ordinal);
        ParsedSetup reading = JobSetup.FromFile(System.Text.Encoding.UTF8.GetBytes(file));
        Guid engine = await CheckedAsync(bench, reading);
        FetchedPage page = await FetchedPage.GetAsync(client, $"/engines/{engine}/wear");
        Assert.Contains("maker's interval is 10000 mi", page.Text, StringComparison.Ordinal);
        Assert.Contains("miles", page.Document.QuerySelector(".trend svg")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_EngineWithAPast_SaysSoTakesItAlongAndRefusesAnEarlierClock()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await CheckedAsync(bench, "09-third-check.json");
        FormPost form = await FormPost.OnAsync(client, $"/engines/{engine}", "start");
        FetchedPage refused = await form.With("Start.Clock", "157").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("157 h", refused.Text, StringComparison.Ordinal);
        Assert.Contains("This is the fourth check. The last was at 158 h.", refused.Text, StringComparison.Ordinal);
        FetchedPage started = await FormPost.On(client, refused, "start").With("Start.Clock", "205").SubmitAsync();
        Guid job = Guid.Parse(started.Address.Segments[2].TrimEnd('/'));
        StoredJob stored = (await bench.Database.Jobs.FindAsync(job, TestContext.Current.CancellationToken))!;
        Assert.Equal([4.0, 103, 158], stored.Sheet.Setup.Start.History.Select(h => h.Clock));
    }

    [Fact]
    public async Task Forecast_OverTheApi_IsTheDocumentOfTheCommand()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await CheckedAsync(bench, "09-third-check.json");
        string json = await client.GetStringAsync(new Uri($"/api/v1/engines/{engine}/forecast", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.StartsWith("{\"format\":\"shimwright-forecast/1\",\"checkBy\":", json, StringComparison.Ordinal);
        using HttpResponseMessage none = await client.GetAsync(new Uri($"/api/v1/engines/{Guid.NewGuid()}/forecast", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        using HttpResponseMessage early = await client.GetAsync(new Uri($"/api/v1/engines/{await DemoEngine.AddAsync(bench)}/forecast", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, early.StatusCode);
        Assert.Contains("no job on this engine was closed yet", await early.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private static Task<Guid> CheckedAsync(RunningBench bench, string file = "01-flood-pump.json") => CheckedAsync(bench, DemoEngine.Setup(file));

    /// <summary>The engine of a job file, its check closed.</summary>
    private static async Task<Guid> CheckedAsync(RunningBench bench, ParsedSetup reading)
    {
        using DemoJob job = await DemoJob.StartAsync(bench, reading.Setup!, [.. reading.Facts.Where(DemoJob.TheCheck)]);
        await bench.Database.Jobs.AddAsync(
            job.Id, new Addition(Guid.NewGuid(), "test", int.MaxValue, [new JobClosed(reading.Setup!.Start.Clock, "", "", "")]), TestContext.Current.CancellationToken);
        return (await job.StoredAsync()).Summary.EngineId;
    }
}
