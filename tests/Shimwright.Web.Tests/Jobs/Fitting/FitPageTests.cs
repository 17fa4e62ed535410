using System.Net;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Fitting;

public class FitPageTests
{
    private const string Single = "01-flood-pump.json";

    [Fact]
    public async Task Get_NoPlan_LeadsToThePlan()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        FetchedPage page = await job.PageAsync("fit");
        Assert.Contains("Accept a plan first.", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.Document.QuerySelectorAll("form"));
    }

    [Fact]
    public async Task Fit_AsPlanned_IsOneTapAndCanBeUndone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await AcceptedAsync(bench);
        FetchedPage page = await (await job.FormAsync("fit", "fit-I1")).SubmitAsync();
        Assert.Equal(new ShimFitted("I1", new(2.318, "micrometer"), new(2.1, "marked")), (await job.StoredAsync()).Sheet.ChangeAt("I1"));
        Assert.Contains("1 of 12 done", page.Text, StringComparison.Ordinal);
        await FormPost.On(job.Client, page, "undo-I1").SubmitAsync();
        Assert.Null((await job.StoredAsync()).Sheet.ChangeAt("I1"));
    }

    [Fact]
    public async Task Fit_AnotherShim_IsKeptAsItWasAndSaidToBeAnotherOne()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await AcceptedAsync(bench);
        FetchedPage page = await (await job.FormAsync("fit", "fit-I1")).With("Fit.To", "2,053").With("Fit.ToBy", "micrometer").SubmitAsync();
        Assert.Equal(new ShimFitted("I1", new(2.318, "micrometer"), new(2.053, "micrometer")), (await job.StoredAsync()).Sheet.ChangeAt("I1"));
        Assert.Contains("This is not the planned shim.", page.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("205", "2.05 meant?")]
    [InlineData("thin", "enter one number")]
    public async Task Fit_NoThickness_IsRefusedAndStaysInTheField(string typed, string expected)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await AcceptedAsync(bench);
        FetchedPage page = await (await job.FormAsync("fit", "fit-I1")).With("Fit.To", typed).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(expected, page.Text, StringComparison.Ordinal);
        Assert.Equal(typed, page.Document.QuerySelector("#to-I1")!.GetAttribute("value"));
        Assert.Null((await job.StoredAsync()).Sheet.ChangeAt("I1"));
    }

    [Fact]
    public async Task Tick_AStep_CanBeTakenBack()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await AcceptedAsync(bench);
        await (await job.FormAsync("fit", "step-timing")).SubmitAsync();
        Assert.True((await job.StoredAsync()).Sheet.IsDone(FitSteps.Timing));
        await (await job.FormAsync("fit", "step-timing")).SubmitAsync();
        Assert.False((await job.StoredAsync()).Sheet.IsDone(FitSteps.Timing));
    }

    [Fact]
    public async Task Get_Accepted_HasTheTimingWithItsCautionAndWhatItMeans()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await AcceptedAsync(bench);
        FetchedPage page = await job.PageAsync("fit");
        Assert.Contains("An engine out of time can bend its valves", page.Text, StringComparison.Ordinal);
        Assert.NotNull(page.Document.QuerySelector($"a[href='/timing?job={job.Id}']"));
    }

    /// <summary>Shims that go from valve to valve: the list says what waits for what.</summary>
    [Fact]
    public async Task Get_ShimsHandedOn_SaysWhichComesFirst()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "02-worn-four.json", DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        FetchedPage page = await job.PageAsync("fit");
        Assert.Contains("Shims go from one valve to another.", page.Text, StringComparison.Ordinal);
        Assert.Contains("The shim to fit comes out of I7. Take that out first.", page.Document.QuerySelector("#valve-I4")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("It goes to I4", page.Document.QuerySelector("#valve-I7")!.TextContent, StringComparison.Ordinal);
    }

    private static async Task<DemoJob> AcceptedAsync(RunningBench bench)
    {
        DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.TheCheck);
        await (await job.FormAsync("plan", "accept")).SubmitAsync();
        return job;
    }
}
