namespace Shimwright.Web.Tests.Hosting;

public class BenchServerTests
{
    [Fact]
    public async Task Get_TheBench_WithoutJobs_SaysWhatToDo()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        string page = await client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Contains("Make a card of the engine", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/app.css")]
    [InlineData("/bench.js")]
    public async Task Get_AnOwnFile_IsThere(string path)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        byte[] file = await client.GetByteArrayAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.True(file.Length > 1000, $"{path} has {file.Length} bytes.");
    }
}
