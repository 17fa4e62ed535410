using System.Net;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Closing;

public class JobNotesTests
{
    [Fact]
    public async Task Post_ANote_StandsOnThePageWithTheDay()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "01-flood-pump.json", DemoJob.Nothing);
        FetchedPage page = await (await FormPost.OnAsync(job.Client, job.Address("close"), "note")).With("Note.Text", " Seat of E2 <pitted>,\nsee photo ").SubmitAsync();
        Assert.Equal((HttpStatusCode.OK, job.Address("close")), (page.Status, page.Address.AbsolutePath));
        string note = page.Document.QuerySelector("section[aria-labelledby=job-notes] p")!.TextContent;
        Assert.Matches(@"^Seat of E2 <pitted>,\nsee photo \d{4}-\d\d-\d\d$", note);
        Assert.Equal("", page.Document.QuerySelector("textarea[name='Note.Text']")!.TextContent);
    }

    [Theory]
    [InlineData("  ", "nothing was written")]
    [InlineData(null, "4001 characters")]
    public async Task Post_NoNoteOrTooLongAOne_IsRefusedAndStaysInTheField(string? text, string why)
    {
        text ??= new string('x', 4001);
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "01-flood-pump.json", DemoJob.Nothing);
        FetchedPage page = await (await FormPost.OnAsync(job.Client, job.Address("close"), "note")).With("Note.Text", text).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(why, page.Text, StringComparison.Ordinal);
        Assert.Equal(text, page.Document.QuerySelector("textarea[name='Note.Text']")!.TextContent);
        Assert.Null((await job.PageAsync("close")).Document.QuerySelector("section[aria-labelledby=job-notes] p"));
    }
}
