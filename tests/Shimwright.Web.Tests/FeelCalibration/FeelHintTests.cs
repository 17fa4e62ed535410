using AngleSharp.Dom;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.FeelCalibration;

public class FeelHintTests
{
    private const string Single = "01-flood-pump.json";

    [Fact]
    public async Task Get_NobodyHasCalibrated_SaysWhatFortyTrialsBringUntilItIsPutAway()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        FetchedPage page = await job.PageAsync("measure?valve=E1");
        IElement told = Told(page)!;
        Assert.Contains("uncertainty of your readings then falls from 0.0050 to about 0.0024 mm.", told.TextContent, StringComparison.Ordinal);
        Assert.Equal("/feel", told.QuerySelector("a")!.GetAttribute("href"));
        FetchedPage after = await FormPost.On(job.Client, page, "hint").With("Hint.Away", "yes").SubmitAsync();
        Assert.Equal($"/jobs/{job.Id}/measure?valve=E1", after.Address.PathAndQuery);
        Assert.Null(Told(after));
        using HttpClient other = bench.NewClient();
        Assert.Null(Told(await FetchedPage.GetAsync(other, job.Address("measure"))));
        // A second device that still shows it is not turned away.
        Assert.Null(Told(await FormPost.On(job.Client, page, "hint").With("Hint.Away", "yes").SubmitAsync()));
    }

    [Fact]
    public async Task Get_TrialsAreThereOrAnotherFeelIsUsed_SaysNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        var person = Guid.NewGuid();
        await bench.Database.Feel.AddAsync(person, person, "d", new FeelNamed("left hand"), TestContext.Current.CancellationToken);
        Assert.NotNull(Told(await job.PageAsync("measure")));
        await bench.Database.Feel.AddAsync(person, Guid.NewGuid(), "d", new FeelTried([new(0.1, 0.1, 1, "light")]), TestContext.Current.CancellationToken);
        Assert.Null(Told(await job.PageAsync("measure")));
    }

    [Fact]
    public async Task Get_TheBenchHasAFeelOfItsOwnOrTheJobIsClosed_SaysNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob closed = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await bench.Database.Jobs.AddAsync(closed.Id, new(Guid.NewGuid(), "d", 1000, [new JobClosed(200, "", "", "")]), TestContext.Current.CancellationToken);
        Assert.Null(Told(await closed.PageAsync("measure")));
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        await bench.Database.Settings.SaveAsync(new BenchSettings { Feel = FeelSettings.Usual with { Doubt = 0.002 } }, 0, "d", TestContext.Current.CancellationToken);
        Assert.Null(Told(await job.PageAsync("measure")));
    }

    private static IElement? Told(FetchedPage page) => page.Document.QuerySelector("[role=note]");
}
