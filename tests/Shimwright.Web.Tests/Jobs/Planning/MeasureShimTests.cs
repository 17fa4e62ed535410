using System.Net;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Sheets;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Planning;

/// <summary>A shim that the plan would use is measured before it is chosen, from the line on top of the page.</summary>
public class MeasureShimTests
{
    private const string Single = "01-flood-pump.json";

    /// <summary>Of two shims marked 2.10 one is measured: it stands by itself, under its size and with its mark.</summary>
    [Fact]
    public async Task Measure_AShimAtHand_IsKeptUnderItsSizeWithItsMark()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        int before = CountOf(JobTerms.Stock((await job.StoredAsync()).Sheet), 2.1);
        FetchedPage page = await (await job.FormAsync("plan?measure=2.1&from=drawer", "measure")).With("Measured.Thickness", "2,104").SubmitAsync();
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Shimwright.Jobs.Facts.StockStated stock = JobTerms.Stock((await job.StoredAsync()).Sheet);
        Assert.Equal(before - 1, CountOf(stock, 2.1));
        Assert.Contains(stock.Drawer, d => d is { Thickness: 2.104, By: "micrometer", Count: 1, Marked: 2.1 });
        Assert.Null(page.Document.QuerySelector("#measure"));
    }

    [Fact]
    public async Task Measure_AShimToBuy_LiesAtHandThen()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await (await job.FormAsync("plan?measure=2.25&from=buy", "measure")).With("Measured.Thickness", "2.247").SubmitAsync();
        Assert.Contains(JobTerms.Stock((await job.StoredAsync()).Sheet).Drawer, d => d is { Thickness: 2.247, By: "micrometer", Count: 1, Marked: 2.25 });
    }

    [Theory]
    [InlineData("2.6", "on a shim marked 2.10")]
    [InlineData("thin", "enter one number")]
    public async Task Measure_NotThatShim_IsRefusedAndStaysInTheField(string typed, string words)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        FetchedPage page = await (await job.FormAsync("plan?measure=2.1&from=drawer", "measure")).With("Measured.Thickness", typed).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(typed, page.Document.QuerySelector("#measured")!.GetAttribute("value"));
    }

    /// <summary>A shim of the shop's drawer is measured there; its compartment is found by the engine's diameter, and the way leads back to the job.</summary>
    [Fact]
    public async Task Measure_AShimOfTheShop_GoesThereAndComesBack()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        StoredEngine engine = (await bench.Database.Engines.FindAsync((await job.StoredAsync()).Summary.EngineId, TestContext.Current.CancellationToken))!;
        await bench.Database.Engines.SaveAsync(
            (engine.Id, engine.Version, engine.CardVersion), engine.Name, engine.Card, engine.Details with { ShimDiameter = 9.48 }, engine.Notes, cancel: TestContext.Current.CancellationToken);
        await bench.Database.Drawer.AddAsync(new(ShimSize.Of(9.48, 2.1, "marked"), 2, "B4"), new(Guid.NewGuid(), "phone"), TestContext.Current.CancellationToken);
        FetchedPage page = await (await FormPost.OnAsync(job.Client, $"/drawer/shim?job={job.Id}&thickness=2100&by=marked", "measure")).With("Measure.Thickness", "2.104").SubmitAsync();
        Assert.EndsWith($"/jobs/{job.Id}/plan", page.Address.AbsolutePath, StringComparison.Ordinal);
        Assert.Contains(await bench.Database.Drawer.LotsAsync(TestContext.Current.CancellationToken), l => l.Size == ShimSize.Of(9.48, 2.104, "micrometer") && l is { Count: 1, Place: "B4" });
    }

    private static int CountOf(Shimwright.Jobs.Facts.StockStated stock, double size) =>
        stock.Drawer.Where(d => d.Thickness == size && d.By == "marked").Sum(d => d.Count);
}
