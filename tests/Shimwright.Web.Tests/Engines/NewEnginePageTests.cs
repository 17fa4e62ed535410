using System.Net;
using AngleSharp.Dom;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Engines;

public class NewEnginePageTests
{
    private const string Answers =
        "&name=Ditch%20pump&train=shim-under-bucket&cylinders=1&banks=line&valves=2%2B2&access=side&intakeLow=0,10&intakeHigh=0,17&exhaustLow=0,20&exhaustHigh=0,26&from=Bench%20copy";

    [Fact]
    public async Task Save_AfterTheQuestions_KeepsAnEngineThatIsThenListed()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FormPost save = await FormPost.OnAsync(client, "/engines/new?at=summary" + Answers, "save");
        FetchedPage engine = await save.SubmitAsync();
        Assert.Equal("Ditch pump", engine.Document.QuerySelector("h1")!.TextContent);

        // The same tap sent twice adds one.
        await save.SubmitAsync();
        EngineSummary kept = Assert.Single(await bench.Database.Engines.ListAsync("", 0, 10, TestContext.Current.CancellationToken));
        StoredEngine stored = (await bench.Database.Engines.FindAsync(kept.Id, TestContext.Current.CancellationToken))!;
        Assert.Equal("Bench copy", stored.Details.LimitsFrom);
        FetchedPage list = await FetchedPage.GetAsync(client, "/engines?q=ditch");
        Assert.Equal($"/engines/{kept.Id}", list.Document.QuerySelector(".rows a")!.GetAttribute("href"));
    }

    [Fact]
    public async Task Get_AScreenWithAProblem_KeepsWhatWasTypedAndSaysWhatIsWrong()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/engines/new?at=crank" + Answers.Replace("intakeHigh=0,17", "intakeHigh=tight", StringComparison.Ordinal));
        IElement field = page.Document.QuerySelector("input[name=intakeHigh]")!;
        Assert.Equal("tight", field.GetAttribute("value"));
        Assert.Equal("true", field.GetAttribute("aria-invalid"));
        Assert.Contains("Intake, upper limit: found \"tight\"", page.Document.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_WithoutTheAnswers_SavesNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FormPost save = await FormPost.OnAsync(client, "/engines/new?at=summary" + Answers, "save");
        HttpResponseMessage answer = await save.To("/engines/new?at=summary").SendAsync();
        Assert.NotEqual(HttpStatusCode.Found, answer.StatusCode);
        Assert.Equal(0, await bench.Database.Engines.CountAsync("", TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Start_ADoubleTap_StartsOneJobWithTheBenchsMinutes()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage engine = await (await FormPost.OnAsync(client, "/engines/new?at=summary" + Answers, "save")).SubmitAsync();
        FormPost start = FormPost.On(client, engine, "start").With("Start.Clock", "118,5").With("Start.Temperature", "68 °F");
        FetchedPage measure = await start.SubmitAsync();
        await start.SubmitAsync();
        Assert.EndsWith("/measure", measure.Address.AbsolutePath, StringComparison.Ordinal);
        JobSummary job = Assert.Single(await bench.Database.Jobs.OpenAsync(0, 10, TestContext.Current.CancellationToken));
        Assert.Equal(118.5, job.Clock);
        StoredJob stored = (await bench.Database.Jobs.FindAsync(job.Id, TestContext.Current.CancellationToken))!;
        Assert.Equal(20, stored.Sheet.Check.TemperatureC, 1e-9);
        Assert.Contains("\"exhaust cam\":25", stored.Sheet.Setup.Json, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_ATemperatureThatIsNone_StaysAndStartsNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage engine = await (await FormPost.OnAsync(client, "/engines/new?at=summary" + Answers, "save")).SubmitAsync();
        FetchedPage again = await FormPost.On(client, engine, "start").With("Start.Clock", "118").With("Start.Temperature", "900").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, again.Status);
        Assert.Equal("118", again.Document.QuerySelector("input[name='Start.Clock']")!.GetAttribute("value"));
        Assert.Contains("found 900", again.Document.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(0, await bench.Database.Jobs.CountOpenAsync(TestContext.Current.CancellationToken));
    }
}
