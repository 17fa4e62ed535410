using System.Net;
using Shimwright.Jobs.Facts;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Measuring;

public class MeasurePageInputTests
{
    private const string Single = "01-flood-pump.json";

    [Theory]
    [InlineData("Tap.Thickness", "NaN")]
    [InlineData("Tap.Thickness", "1e999")]
    [InlineData("Tap.Thickness", "-0.10")]
    [InlineData("Tap.Thickness", "0")]
    [InlineData("Tap.Thickness", "5")]
    [InlineData("Tap.Thickness", "<b>0.1</b>")]
    [InlineData("Tap.Leaves", "0")]
    [InlineData("Tap.Blade", "")]
    [InlineData("Tap.Feel", "soft")]
    [InlineData("Tap.Valve", "Q9")]
    public async Task Tap_WrongInput_IsRefusedShownAndNotKept(string field, string value)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        FetchedPage page = await (await job.FormAsync("measure?valve=E1", "tap")).With("Tap.Feel", "light").With(field, value).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.NotEmpty(page.Document.QuerySelectorAll("[role=alert] li"));
        Assert.DoesNotContain((await job.StoredAsync()).Sheet.Entries, e => e.Fact is not CrankTurned);
        if (field is "Tap.Thickness" or "Tap.Leaves")
        {
            Assert.Equal(value, page.Document.QuerySelector($"input[name='{field}']")!.GetAttribute("value"));
            Assert.True(page.Document.QuerySelector($"input[name='{field}']")!.Closest("details")!.HasAttribute("open"));
        }
    }

    [Theory]
    [InlineData("", "0.01")]
    [InlineData("0.2", "")]
    [InlineData("0.2", "-0.01")]
    [InlineData("20", "0.01")]
    public async Task Value_WrongInput_IsRefusedAndStaysInTheField(string value, string u)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Single, DemoJob.Nothing);
        FetchedPage page = await (await job.FormAsync("measure?valve=E1", "value")).With("Value.Value", value).With("Value.U", u).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Equal(value, page.Document.QuerySelector("input[name='Value.Value']")!.GetAttribute("value"));
        Assert.DoesNotContain((await job.StoredAsync()).Sheet.Entries, e => e.Fact is not CrankTurned);
    }
}
