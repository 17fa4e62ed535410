using System.Net;
using System.Text;
using AngleSharp.Dom;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.FeelCalibration;

public class FeelPageTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Settings_LeadToTheFeel_AndANewPersonToTheFirstTrial()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Assert.NotNull((await FetchedPage.GetAsync(client, "/settings")).Document.QuerySelector("a[href='/feel']"));
        FetchedPage page = await BeginAsync(client, "Ines");
        Assert.Contains("Feel of Ines", page.Text, StringComparison.Ordinal);
        Assert.Contains("0 of 12 trials", page.Text, StringComparison.Ordinal);
        // What says most stands in the fields already.
        Assert.NotEmpty(page.Document.QuerySelector("input[name='Tap.Gap']")!.GetAttribute("value")!);
        Assert.Single(page.Document.QuerySelectorAll("input[name='Tap.Blade'][checked]"));
        Assert.Equal(4, page.Document.QuerySelectorAll("button[name='Tap.Feel']").Length);
        Assert.Contains("Ines", (await FetchedPage.GetAsync(client, "/feel")).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "name: found \"\"")]
    [InlineData(" ines ", "ines is on the list already")]
    public async Task Post_ANameThatCannotBe_IsRefused(string name, string expected)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await BeginAsync(client, "Ines");
        FetchedPage page = await BeginAsync(client, name);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(expected, page.Text, StringComparison.Ordinal);
        Assert.Single(await bench.Database.Feel.ListAsync(Cancel));
    }

    /// <summary>A tap is a trial; sent twice it counts once; it is undone and put back.</summary>
    [Fact]
    public async Task Post_Taps_AreKeptUndoneAndPutBack()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await BeginAsync(client, "Ines");
        FormPost tap = FormPost.On(client, page, "trial").With("Tap.Gap", "0,195").With("Tap.Blade", "0.2").With("Tap.Feel", "firm");
        await tap.SubmitAsync();
        page = await tap.SubmitAsync();
        Assert.Contains("1 of 12 trials", page.Text, StringComparison.Ordinal);
        Assert.Equal(new TrialMade(0.195, 0.2, 1, "firm"), Assert.Single((await OneAsync(bench)).Book.Booked[0].Trials));

        page = await FormPost.On(client, page, "back").With("Back.Number", "2").SubmitAsync();
        Assert.Empty((await OneAsync(bench)).Book.Trials);
        Assert.Contains("Redo gap 0.195, blade 0.20: firm", page.Text, StringComparison.Ordinal);
        await FormPost.On(client, page, "back").With("Back.Number", "3").SubmitAsync();
        Assert.Single((await OneAsync(bench)).Book.Trials);
    }

    [Theory]
    [InlineData("wide", "0.2", "", "gap: found \"wide\"")]
    [InlineData("0.2", "", "", "blade: no blade was chosen")]
    [InlineData("0.9", "0.2", "", "gap: found 0.9 mm; allowed is within 0.5 mm of the blade, 0.2 mm")]
    [InlineData("0.2", "0.2", "many", "leaves: found \"many\"")]
    public async Task Post_ATrialThatCannotBe_SaysWhatIsWrongAndKeepsWhatWasTyped(string gap, string blade, string leaves, string expected)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FormPost.On(client, await BeginAsync(client, "Ines"), "trial")
            .With("Tap.Gap", gap).With("Tap.Blade", blade).With("Tap.Leaves", leaves).With("Tap.Feel", "firm").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(expected, page.Document.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(gap, page.Document.QuerySelector("input[name='Tap.Gap']")!.GetAttribute("value"));
        Assert.Empty((await OneAsync(bench)).Book.Trials);
    }

    /// <summary>The demo's trials: the figures are those of the command, and the bench takes them when asked, and only as they were seen.</summary>
    [Fact]
    public async Task Post_AFileOfTrials_FitsAsTheCommandDoesAndBecomesTheBenchsFeel()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        byte[] file = DemoEngine.File("feel-trials.csv");
        FetchedPage page = await FormPost.On(client, await BeginAsync(client, "Ines"), "file").WithFile("Sent.File", "mine.csv", file).SubmitAsync();
        IElement table = page.Document.QuerySelector("table.fitted-feel")!;
        Assert.Contains("-0.027", table.TextContent, StringComparison.Ordinal);
        Assert.Contains("0.002 to 0.014", table.TextContent, StringComparison.Ordinal);
        Assert.Contains("Your feel differs from the default", page.Text, StringComparison.Ordinal);
        Assert.Single(page.Document.QuerySelectorAll(".feel-picture svg[role=img]"));
        Assert.Equal(40, page.Document.QuerySelectorAll(".feel-picture .trial").Length);

        FetchedPage used = await FormPost.On(client, page, "use").SubmitAsync();
        Assert.Contains("New jobs use this feel", used.Text, StringComparison.Ordinal);
        var trials = TrialFile.Read(file).Trials!;
        BenchSettings settings = (await bench.Database.Settings.CurrentAsync(Cancel)).Settings;
        var result = (await OneAsync(bench)).Book.Fit(new BenchSettings());
        Assert.Equal(CalibrationResult.Of(trials, result.Fit!, result.Next).Feel, settings.Feel);
        Assert.Contains("feel of Ines", (await FetchedPage.GetAsync(client, "/feel")).Text, StringComparison.Ordinal);

        // Sent twice it holds as it did.
        Assert.Contains("This feel is in use", (await FormPost.On(client, page, "use").SubmitAsync()).Text, StringComparison.Ordinal);

        await (await FormPost.OnAsync(client, "/feel", "usual")).SubmitAsync();
        Assert.Equal(FeelSettings.Usual, (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.Feel);
        FetchedPage late = await FormPost.On(client, page, "use").SubmitAsync();
        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        Assert.Equal(FeelSettings.Usual, (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.Feel);
    }

    [Fact]
    public async Task Get_TheTrialsAsAFile_ReadAsTheyWereTakenIn()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await BeginAsync(client, "Ines");
        await FormPost.On(client, page, "file").WithFile("Sent.File", "mine.csv", DemoEngine.File("feel-trials.csv")).SubmitAsync();
        byte[] file = await client.GetByteArrayAsync(new Uri($"{page.Address.AbsolutePath}/trials.csv", UriKind.Relative), Cancel);
        Assert.Equal(TrialFile.Read(DemoEngine.File("feel-trials.csv")).Trials, TrialFile.Read(file).Trials);
        using HttpResponseMessage none = await client.GetAsync(new Uri($"/feel/{Guid.NewGuid()}/trials.csv", UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await FetchedPage.GetAsync(client, $"/feel/{Guid.NewGuid()}")).Status);
    }

    [Fact]
    public async Task Post_AFileWithBadLines_NamesEachAndTakesNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FormPost.On(client, await BeginAsync(client, "Ines"), "file")
            .WithFile("Sent.File", "mine.csv", Encoding.UTF8.GetBytes("gap,blade,feel\n0.2,0.2,tight\n0.2,0.2,firm\nx,0.2,no\n")).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("line 2, feel: found \"tight\"", page.Text, StringComparison.Ordinal);
        Assert.Contains("line 4, gap: found \"x\"", page.Text, StringComparison.Ordinal);
        Assert.Empty((await OneAsync(bench)).Book.Trials);
    }

    /// <summary>Fourteen trials that say one thing only: no profile, and what to try instead, in the bench's unit.</summary>
    [Fact]
    public async Task Get_TrialsThatCannotBeFitted_SayWhatToTryNext()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        string lines = string.Concat(Enumerable.Repeat("0.2,0.2,light\n", 14));
        FetchedPage page = await FormPost.On(client, await BeginAsync(client, "Ines"), "file")
            .WithFile("Sent.File", "mine.csv", Encoding.UTF8.GetBytes("gap,blade,feel\n" + lines)).SubmitAsync();
        Assert.Contains("No profile yet", page.Text, StringComparison.Ordinal);
        Assert.Contains("No trial felt \"no\" or \"firm\" or \"loose\"", page.Text, StringComparison.Ordinal);
        Assert.Contains("try next the 0.10 mm blade", page.Text, StringComparison.Ordinal);
        Assert.Null(page.Document.QuerySelector(".feel-picture"));
    }

    private static async Task<FetchedPage> BeginAsync(HttpClient client, string name) =>
        await (await FormPost.OnAsync(client, "/feel", "person")).With("Person.Name", name).SubmitAsync();

    private static async Task<StoredFeel> OneAsync(RunningBench bench) => Assert.Single(await bench.Database.Feel.ListAsync(Cancel));
}
