using System.Globalization;
using System.Net;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs;

/// <summary>A job from its check to its record, through the forms as a person without script would.</summary>
public class WholeJobTests
{
    [Theory]
    [InlineData("01-flood-pump.json")]
    [InlineData("04-shim-over-bucket-twin.json")]
    [InlineData("06-plant-engine-screws.json")]
    [InlineData("07-stranded-valve.json")]
    public async Task Job_FromItsCheck_EndsInARecord(string file)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, file, DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        await CarryOutAsync(job);
        Assert.Equal(JobStage.Recheck, (await job.StoredAsync()).Summary.Stage);
        await ReadAgainAsync(job);

        double clock = (await job.StoredAsync()).Sheet.Check.Clock + 0.5;
        FormPost close = (await job.FormAsync("close", "close")).With("Close.Clock", clock.ToString(CultureInfo.InvariantCulture).Replace('.', ',')).With("Close.Found", "dust").With("Close.By", "Wren");
        bool strands = (await job.StoredAsync()).Sheet.Plan!.Stranded.Count > 0;
        FetchedPage page = await (strands ? close.With("Close.Confirmed", "true") : close).With("Close.Then", "record").SubmitAsync();
        Assert.EndsWith("/record", page.Address.AbsolutePath, StringComparison.Ordinal);
        JobRecord record = (await job.StoredAsync()).Record!;
        Assert.Equal(clock, record.ClosedClock);
        Assert.Equal(!strands, record.Pass);
        Assert.All(record.Valves, v => Assert.Contains(v.Valve, page.Document.QuerySelector("article.record table")!.TextContent, StringComparison.Ordinal));
        Assert.Contains("dust", page.Text, StringComparison.Ordinal);
        Assert.Contains("Wren", page.Text, StringComparison.Ordinal);
        Assert.Equal((await job.StoredAsync()).Sheet.Setup.Card.Wear is not null, page.Text.Contains("Next check", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Job_InItsBands_IsClosedWithoutLiftingAnything()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "03-leave-alone.json", DemoJob.TheCheck);
        FetchedPage fit = await (await job.FormAsync("plan", "accept")).SubmitAsync();
        Assert.Contains("Nothing is lifted", fit.Text, StringComparison.Ordinal);
        Assert.Equal(JobStage.Close, (await job.StoredAsync()).Summary.Stage);
        FetchedPage record = await (await job.FormAsync("close", "close")).With("Close.Then", "record").SubmitAsync();
        Assert.Contains("Checked, nothing to do. Chance that all 8 valves are within the maker's limits: ", record.Text, StringComparison.Ordinal);
    }

    /// <summary>A check that finds every valve in band is closed in one tap: no shims, no plan, nothing to tick.</summary>
    [Fact]
    public async Task Job_InItsBands_IsClosedFromMeasureInOneTap()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "03-leave-alone.json", f => f is ReadingFact { Part: SheetPart.Check });
        FetchedPage record = await (await job.FormAsync("measure", "nothing")).SubmitAsync();
        Assert.EndsWith("/record", record.Address.AbsolutePath, StringComparison.Ordinal);
        Assert.Contains("Checked, nothing to do. Chance that all 8 valves are within the maker's limits: ", record.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("does not pass", record.Text, StringComparison.Ordinal);
        Assert.True((await job.StoredAsync()).Record!.IsNothingToDo);
        FetchedPage engine = await FetchedPage.GetAsync(job.Client, $"/engines/{(await job.StoredAsync()).Summary.EngineId}");
        Assert.Contains("Checked, nothing to do.", engine.Text, StringComparison.Ordinal);
    }

    /// <summary>The page may be older than the readings: a valve that went out of band since keeps the job open.</summary>
    [Fact]
    public async Task Job_OutOfBandSinceThePage_IsNotClosedInOneTap()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "03-leave-alone.json", f => f is ReadingFact { Part: SheetPart.Check });
        FormPost form = await job.FormAsync("close", "nothing");
        await bench.Database.Jobs.AddAsync(job.Id, new(Guid.NewGuid(), "tablet", 1000, [new ClearanceRead(SheetPart.Check, "I1", 0.05, 0.002)]), TestContext.Current.CancellationToken);
        Assert.NotEqual(HttpStatusCode.OK, (await form.SubmitAsync()).Status);
        Assert.Null((await job.StoredAsync()).Record);
    }

    [Fact]
    public async Task Close_AValveFails_HasToBeConfirmedAndStartsASecondRound()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "01-flood-pump.json", DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        await CarryOutAsync(job);
        await ReadAgainAsync(job, "I2", 0.10);

        FetchedPage refused = await (await job.FormAsync("close", "close")).With("Close.Found", "tight").With("Close.Then", "record").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("I2 does not pass.", refused.Text, StringComparison.Ordinal);
        Assert.Equal("tight", refused.Document.QuerySelector("#found")!.TextContent);

        Assert.Equal("I2", refused.Document.QuerySelector("table.verdict tbody th")!.TextContent);
        Assert.Equal(["Start the second round", "Close anyway"], refused.Document.QuerySelectorAll("button[name='Close.Then']").Select(b => b.TextContent));
        Assert.Equal("Start the second round", refused.Document.QuerySelector("main button.first")!.TextContent);
        FetchedPage second = await FormPost.On(job.Client, refused, "close").With("Close.Then", "second").SubmitAsync();
        Assert.NotNull((await job.StoredAsync()).Record);
        Assert.EndsWith("/plan", second.Address.AbsolutePath, StringComparison.Ordinal);
        var next = Guid.Parse(second.Address.Segments[2].TrimEnd('/'));
        JobSheet sheet = (await bench.Database.Jobs.FindAsync(next, TestContext.Current.CancellationToken))!.Sheet;
        Assert.Single(sheet.Setup.Start.Rounds);

        FetchedPage closed = await job.PageAsync("close");
        Assert.DoesNotContain("Start the second round", closed.Text, StringComparison.Ordinal);
        Assert.Contains(closed.Document.QuerySelectorAll("a"), a => a.GetAttribute("href")!.StartsWith($"/jobs/{next}/", StringComparison.Ordinal));
        Assert.Equal((await job.StoredAsync()).Summary.EngineId, (await bench.Database.Jobs.FindAsync(next, TestContext.Current.CancellationToken))!.Summary.EngineId);
    }

    [Fact]
    public async Task Close_TimingNotTicked_IsRefusedWhateverIsConfirmed()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "01-flood-pump.json", DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        await (await job.FormAsync("fit", "fit-I1")).SubmitAsync();
        FetchedPage page = await (await job.FormAsync("close", "close")).With("Close.Confirmed", "true").With("Close.Then", "record").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("the timing is not ticked", page.Text, StringComparison.Ordinal);
        Assert.Null((await job.StoredAsync()).Record);
    }

    [Fact]
    public async Task Reopen_AClosedJob_CanBeWorkedOnAgain()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "03-leave-alone.json", DemoJob.TheCheck);
        Assert.Contains("Close this job first", (await job.PageAsync("record")).Text, StringComparison.Ordinal);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        await (await job.FormAsync("close", "close")).With("Close.Then", "record").SubmitAsync();
        await (await job.FormAsync("close", "reopen")).SubmitAsync();
        Assert.Null((await job.StoredAsync()).Record);
        Assert.NotEmpty((await job.PageAsync("close")).Document.QuerySelectorAll("#clock"));
    }

    /// <summary>Ticks and confirms everything, in the order in which the page has it.</summary>
    private static async Task CarryOutAsync(DemoJob job)
    {
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        foreach (FitStep step in FitSteps.For(sheet).Where(s => !s.After))
        {
            await (await job.FormAsync("fit", $"step-{step.Name}")).SubmitAsync();
        }

        foreach (PlanRow row in sheet.Plan!.Changes)
        {
            await (await job.FormAsync("fit", $"fit-{row.Valve}")).SubmitAsync();
        }

        foreach (FitStep step in FitSteps.For(sheet).Where(s => s.After))
        {
            await (await job.FormAsync("fit", $"step-{step.Name}")).SubmitAsync();
        }

        Assert.Contains($"{FitSteps.For(sheet).Count + sheet.Plan.Changes.Count()} of", (await job.PageAsync("fit")).Text, StringComparison.Ordinal);
    }

    /// <summary>Measures every changed valve in the middle of its band, and one elsewhere where it is told.</summary>
    private static async Task ReadAgainAsync(DemoJob job, string? other = null, double at = 0)
    {
        JobSheet sheet = (await job.StoredAsync()).Sheet;
        foreach (PlanRow row in sheet.Plan!.Changes)
        {
            double value = row.Valve == other ? at : sheet.Engine.Valves.Single(v => v.Id == row.Valve).Band.Middle;
            await (await job.FormAsync($"recheck?valve={row.Valve}", "value"))
                .With("Value.Value", value.ToString(CultureInfo.InvariantCulture)).With("Value.U", "0.01").SubmitAsync();
        }

        Assert.Equal(JobStage.Close, (await job.StoredAsync()).Summary.Stage);
    }
}
