using System.Net;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Jobs.Shims;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Shims;

public class ShimsPageTests
{
    private const string Four = "02-worn-four.json";

    /// <summary>Sixteen in a row: each answer leads to the next valve that is empty.</summary>
    [Fact]
    public async Task Save_SixteenInARow_LeadsToTheNextEmptyOneEachTime()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Four, f => f is ReadingFact { Part: SheetPart.Check });
        string[] valves = [.. (await job.StoredAsync()).Sheet.Engine.Valves.Select(v => v.Id)];
        FetchedPage page = await job.PageAsync("shims");
        foreach ((int i, string valve) in valves.Index())
        {
            Assert.Equal($"Found at {valve}", page.Document.QuerySelector("#turn")!.TextContent);
            page = await FormPost.On(job.Client, page, "shim").With("Shim.Thickness", $"2,{50 + i}").With("Shim.By", "micrometer").SubmitAsync();
        }

        Assert.Contains("Every shim is entered.", page.Text, StringComparison.Ordinal);
        Assert.Equal(JobStage.Plan, (await job.StoredAsync()).Summary.Stage);
        Assert.Equal(2.65, (await job.StoredAsync()).Sheet.FoundAt(valves[15])!.Thickness);
    }

    [Fact]
    public async Task Tap_AMarkedSizeNearTheLastOne_IsEntered()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Four, DemoJob.Nothing);
        FetchedPage page = await (await job.FormAsync("shims", "shim")).With("Shim.Thickness", "2.48").With("Shim.By", "micrometer").SubmitAsync();
        string[] sizes = [.. page.Document.QuerySelectorAll(".sizes button").Select(b => b.GetAttribute("value")!)];
        Assert.Equal(["2.3", "2.35", "2.4", "2.45", "2.5", "2.55", "2.6", "2.65", "2.7"], sizes);
        await FormPost.On(job.Client, page, "marked").With("Marked.Thickness", "2.45").SubmitAsync();
        Assert.Equal(new ThicknessFound("I2", 2.45, "marked"), (await job.StoredAsync()).Sheet.FoundAt("I2"));
    }

    [Theory]
    [InlineData("262", "2.62 meant?")]
    [InlineData("two", "enter one number")]
    [InlineData("", "nothing was entered")]
    public async Task Save_NoThickness_IsRefusedAndStaysInTheField(string typed, string expected)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Four, DemoJob.Nothing);
        FetchedPage page = await (await job.FormAsync("shims", "shim")).With("Shim.Thickness", typed).With("Shim.By", "marked").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(expected, page.Text, StringComparison.Ordinal);
        Assert.Equal(typed, page.Document.QuerySelector("#thickness")!.GetAttribute("value"));
        Assert.Equal("Found at I1", page.Document.QuerySelector("#turn")!.TextContent);
        Assert.Empty((await job.StoredAsync()).Sheet.Entries);
    }

    [Fact]
    public async Task Correct_AValve_TakesTheNewerOne()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "01-flood-pump.json", DemoJob.TheCheck);
        FormPost form = await job.FormAsync("shims?valve=E1", "shim");
        Assert.Contains(form.Fields, f => f is { Key: "Shim.Thickness", Value: "2.521" });
        await form.With("Shim.Thickness", "2.53").SubmitAsync();
        Assert.Equal(2.53, (await job.StoredAsync()).Sheet.FoundAt("E1")!.Thickness);
    }

    [Fact]
    public async Task Get_Screws_SaysThatThereAreNone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "06-plant-engine-screws.json", DemoJob.TheCheck);
        FetchedPage page = await job.PageAsync("shims");
        Assert.Contains("adjusted by screws: there are no shims", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.Document.QuerySelectorAll("form"));
    }

    /// <summary>A decimal keypad has no letters: a chip says the unit. A unit that is typed wins, and default is the bench's.</summary>
    [Theory]
    [InlineData("100", "thou", 2.54)]
    [InlineData("2.55 mm", "thou", 2.55)]
    [InlineData("0.1", "in", 2.54)]
    [InlineData("2.55", null, 2.55)]
    public async Task Save_UnitChip_IsTheUnitOfABareNumber(string typed, string? unit, double expected)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Four, DemoJob.Nothing);
        FormPost form = await job.FormAsync("shims", "shim");
        Assert.Contains(form.Fields, f => f is { Key: "Shim.Unit", Value: "mm" });
        await form.With("Shim.Thickness", typed).With("Shim.By", "micrometer").With("Shim.Unit", unit).SubmitAsync();
        Assert.Equal(expected, (await job.StoredAsync()).Sheet.FoundAt("I1")!.Thickness, 6);
    }

    /// <summary>What was left in every valve by the last closed job is entered in one tap; what was entered already stays.</summary>
    [Fact]
    public async Task AsLeft_AfterAClosedJob_EntersEveryShimThatIsMissing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (Guid engine, Guid before) = await DemoEngine.AddWithJobAsync(bench);
        CancellationToken cancel = TestContext.Current.CancellationToken;
        await bench.Database.Settings.SaveAsync(new() { Unit = "thou" }, 0, "test", cancel);
        await bench.Database.Jobs.AddAsync(before, new(Guid.NewGuid(), "test", 1000, [new ThicknessFound("I1", 2.55, "marked"), new JobClosed(200, "", "", "")]), cancel);
        Guid job = await bench.Database.Jobs.StartAsync(engine, DemoEngine.Setup().Setup!, [new ThicknessFound("I2", 2.7, "calliper")], Guid.NewGuid(), "test", cancel);
        FetchedPage page = await FetchedPage.GetAsync(client, $"/jobs/{job}/shims");
        Assert.Contains("I1 2.55 mm", page.Text, StringComparison.Ordinal);
        await FormPost.On(client, page, "as-left").SubmitAsync();
        JobSheet sheet = (await bench.Database.Jobs.FindAsync(job, cancel))!.Sheet;
        Assert.Equal((new("I1", 2.55, "marked"), new("I2", 2.7, "calliper")), (sheet.FoundAt("I1")!, sheet.FoundAt("I2")!));
        Assert.All(sheet.Engine.Valves, v => Assert.NotNull(sheet.FoundAt(v.Id)));
        // A mark in millimetres is shown as it is marked, whatever the bench's unit.
        page = await FetchedPage.GetAsync(client, $"/jobs/{job}/shims");
        Assert.Contains("2.55 mm", page.Document.QuerySelector("table.shims")!.TextContent, StringComparison.Ordinal);
        Assert.Null(page.Document.QuerySelector("input[value=as-left]"));
    }

    [Fact]
    public void For_LeftLastTime_OffersThatSizeAndSaysWhy()
    {
        ParsedSetup reading = DemoEngine.Setup("02-worn-four.json");
        ShimEntry entry = ShimEntry.For(JobSheet.Of(reading.Setup!, []), null, v => new(v, 2.375, "marked"));
        Assert.Equal("left last time", entry.Sizes.Single(s => s.Thickness == 2.375).Why);
        Assert.Equal(entry.Sizes.Select(s => s.Thickness).Order(), entry.Sizes.Select(s => s.Thickness));
    }
}
