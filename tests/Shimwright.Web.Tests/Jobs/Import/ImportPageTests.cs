using System.Net;
using System.Text;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Fitting;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Import;

public class ImportPageTests
{
    [Fact]
    public async Task Send_AJobFile_MakesAnEngineAndAJobWithTheSameFigures()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await SendAsync(client, DemoEngine.File("02-worn-four.json"));
        Assert.EndsWith("/plan", page.Address.AbsolutePath, StringComparison.Ordinal);
        Assert.Contains("The shuttle van's four", page.Text, StringComparison.Ordinal);
        Assert.Contains("79.4 %", page.Document.QuerySelector("#plan .do-now")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Send_AFileWithItsWorkDone_StandsWhereTheFileStands()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await SendAsync(client, DemoEngine.File());
        Assert.EndsWith("/close", page.Address.AbsolutePath, StringComparison.Ordinal);
        Assert.Contains("passes", page.Document.QuerySelector("table.verdict")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Send_AFileThatIsLargerThanOtherPagesTake_IsTakenIn()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        byte[] blanks = new byte[2 * Web.Requests.BodyLimit.Usual];
        Array.Fill(blanks, (byte)' ');
        FetchedPage page = await SendAsync(client, [.. blanks, .. DemoEngine.File()]);
        Assert.EndsWith("/close", page.Address.AbsolutePath, StringComparison.Ordinal);
    }

    /// <summary>The page may not even begin to keep such a file.</summary>
    [Fact]
    public async Task Send_AFileLargerThanAnyJobFile_IsRefusedWhileItIsRead()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        byte[] blanks = new byte[Shimwright.Jobs.JobFile.LargestBytes + 1];
        Array.Fill(blanks, (byte)' ');
        FetchedPage page = await SendAsync(client, blanks);
        Assert.Equal(HttpStatusCode.BadRequest, page.Status);
        Assert.Empty(await bench.Database.Engines.ListAsync(null, 0, 1, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Send_ForAnEngineOfThatName_UsesIt()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench);
        await SendAsync(client, DemoEngine.File());
        Assert.Single(await bench.Database.Jobs.OfEngineAsync(engine, TestContext.Current.CancellationToken));
        await SendAsync(client, DemoEngine.File(), "new");
        Assert.Single(await bench.Database.Jobs.OfEngineAsync(engine, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Send_ForAnotherEngine_IsRefusedWithBothSetsOfValves()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench, "06-plant-engine-screws.json");
        FetchedPage page = await (await FormPost.OnAsync(client, $"/jobs/take-in?engine={engine}", "take-in")).WithFile("Sent.File", "job.json", DemoEngine.File()).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("the file has I1, I2, E1, E2", page.Text, StringComparison.Ordinal);
        Assert.Empty(await bench.Database.Jobs.OfEngineAsync(engine, TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("{}", "engine: missing")]
    [InlineData("not a file", "line 1")]
    [InlineData("", "no file was chosen, or it is empty")]
    public async Task Send_NoJobFile_SaysWhatIsWrongWithIt(string text, string expected)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await SendAsync(client, Encoding.UTF8.GetBytes(text));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(expected, page.Text, StringComparison.Ordinal);
        Assert.Equal(0, await bench.Database.Jobs.CountOpenAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>Other requests end at a megabyte; a job file may be larger.</summary>
    [Fact]
    public async Task Send_AFileOfThreeMegabytes_IsTaken()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        byte[] file = [.. DemoEngine.File("02-worn-four.json"), .. Enumerable.Repeat((byte)' ', 3 << 20)];
        Assert.EndsWith("/plan", (await SendAsync(client, file)).Address.AbsolutePath, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Send_TheSameFormTwice_MakesOneJob()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FormPost form = (await FormPost.OnAsync(client, "/jobs/take-in", "take-in")).WithFile("Sent.File", "job.json", DemoEngine.File("02-worn-four.json"));
        await form.SubmitAsync();
        await form.SubmitAsync();
        IReadOnlyList<JobSummary> open = await bench.Database.Jobs.OpenAsync(0, 10, TestContext.Current.CancellationToken);
        Assert.Equal(JobStage.Plan, Assert.Single(open).Stage);
    }

    private static async Task<FetchedPage> SendAsync(HttpClient client, byte[] file, string engine = "named") =>
        await (await FormPost.OnAsync(client, "/jobs/take-in", "take-in")).With("Sent.Engine", engine).WithFile("Sent.File", "job.json", file).SubmitAsync();
}
