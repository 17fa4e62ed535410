using System.Net;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Jobs.Readings;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Measuring;

public class RecheckPageTests
{
    private const string Single = "01-flood-pump.json";

    [Fact]
    public async Task Get_NothingChanged_SaysWhatToDo()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        FetchedPage page = await job.PageAsync("recheck");
        Assert.Contains("Nothing is changed yet.", page.Document.QuerySelector(".empty")!.TextContent, StringComparison.Ordinal);
        Assert.Empty(page.Document.QuerySelectorAll("form"));
    }

    [Fact]
    public async Task Get_Changed_StartsFromThePredictionAtAChangedValve()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, ChangedNotRead);
        FetchedPage page = await job.PageAsync("recheck");
        PredictedRow predicted = (await VerdictOf(job)).Valves.Single(v => v.Valve == "I1").Predicted;
        Assert.StartsWith("I1", page.Document.QuerySelector("#valve h2")!.TextContent, StringComparison.Ordinal);
        Assert.Contains($"Expected after the change: {LengthStyle.Millimetres.Clearance(predicted.Mean)} ± ", page.Text, StringComparison.Ordinal);
        Assert.NotNull(page.Document.QuerySelector(".bandbar .prediction-mean"));
        Assert.Null(page.Document.QuerySelector(".bandbar .mean"));
        Assert.Equal("left alone", page.Document.QuerySelectorAll(".strip a").Single(a => a.TextContent.StartsWith("E1", StringComparison.Ordinal)).QuerySelector(".status")!.TextContent.Trim());
    }

    [Fact]
    public async Task Tap_AtAChangedValve_IsAReadingOfTheRecheck()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, ChangedNotRead);
        await (await job.FormAsync("recheck?valve=I1", "tap")).With("Tap.Blade", "0.13").With("Tap.Feel", "light").SubmitAsync();
        Assert.Equal(new BladeTried(SheetPart.Recheck, "I1", 0.13, 1, "light"), (await job.StoredAsync()).Sheet.InForce[^1].Fact);
    }

    /// <summary>The changed valves are gone through, and then the page leads on.</summary>
    [Fact]
    public async Task Tap_EveryChangedValve_EndsTheStage()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, ChangedNotRead);
        string[] order = new string[3];
        for (int v = 0; v < order.Length; v++)
        {
            FetchedPage page = await job.PageAsync("recheck");
            order[v] = page.Document.QuerySelector("#valve h2")!.TextContent.Split(',')[0];
            await FormPost.On(job.Client, page, "tap").With("Tap.Feel", "light").SubmitAsync();
        }

        Assert.Equal(["I1", "I2", "E2"], order);
        Assert.Equal(JobStage.Close, JobStages.Of((await job.StoredAsync()).Sheet));
        Assert.Contains($"/jobs/{job.Id}/close", (await job.PageAsync("recheck")).Document.QuerySelectorAll(".next-up a").Select(a => a.GetAttribute("href")));
    }

    [Fact]
    public async Task Get_Read_ShowsTheVerdictOfTheDownloadedFile()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, _ => true);
        VerdictResult verdict = await VerdictOf(job);
        VerdictRow[] read = [.. verdict.Valves.Where(v => v.Surprise is not null)];
        Assert.Equal(["I1", "I2", "E2"], read.Select(r => r.Valve));
        foreach (VerdictRow row in read)
        {
            FetchedPage page = await job.PageAsync($"recheck?valve={row.Valve}");
            Assert.Equal(ReadingWords.Of(row.Estimate, LengthStyle.Millimetres), page.Document.QuerySelector(".estimate")!.TextContent);
        }
    }

    /// <summary>A reading far from the prediction is said beside the valve, with what to look at.</summary>
    [Fact]
    public async Task Tap_FarFromThePrediction_AsksToLookAgain()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, ChangedNotRead);
        await (await job.FormAsync("recheck?valve=I1", "value")).With("Value.Value", "0.40").SubmitAsync();
        FetchedPage page = await job.PageAsync("recheck?valve=I1");
        Assert.Contains("Look again before you close.", page.Text, StringComparison.Ordinal);
        Assert.Contains("wrong shim, a shim not seated, dirt, or a misread blade", page.Text, StringComparison.Ordinal);
    }

    /// <summary>A changed valve that nobody felt again is not said to pass.</summary>
    [Fact]
    public async Task Get_ChangedNotRead_HasNoCautionThatItPasses()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, ChangedNotRead);
        Assert.DoesNotContain("passes, but only", (await job.PageAsync("recheck")).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("NaN")]
    [InlineData("200")]
    [InlineData("")]
    public async Task Conditions_NoTemperature_IsRefused(string temperature)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, ChangedNotRead);
        FetchedPage page = await (await job.FormAsync("recheck", "conditions")).With("Conditions.Temperature", temperature).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("temperature", page.Document.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Conditions_ATemperature_IsThatOfTheRecheck()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, ChangedNotRead);
        await (await job.FormAsync("recheck", "conditions")).With("Conditions.Temperature", "24").SubmitAsync();
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        Assert.Equal((24.0, 16.0), (sheet.RecheckTemperature, sheet.Check.TemperatureC));
    }

    private static bool ChangedNotRead(JobFact fact) => fact is not ReadingFact { Part: SheetPart.Recheck };

    private static async Task<VerdictResult> VerdictOf(DemoJob job)
    {
        byte[] download = await job.Client.GetByteArrayAsync(new Uri(job.Address("file"), UriKind.Relative), TestContext.Current.CancellationToken);
        return VerdictResult.Of(JobFile.Read(download, JobPurpose.Draft).Job!);
    }
}
