using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs;

public class StopsPageTests
{
    private const string Four = "02-worn-four.json";

    [Fact]
    public async Task Get_TheFour_SaysWhatTheCommandSaysOfTheDownloadedFile()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, Four, DemoJob.TheCheck);
        byte[] download = await job.Client.GetByteArrayAsync(new Uri(job.Address("file"), UriKind.Relative), TestContext.Current.CancellationToken);
        StopsResult expected = StopsResult.Of(JobFile.Read(download, JobPurpose.Stops).Job!);
        FetchedPage page = await job.PageAsync("stops");
        IElement[] stops = [.. page.Document.QuerySelectorAll("ol.stops > li")];
        Assert.Equal(expected.Stops.Count, stops.Length);
        Assert.All(expected.Stops.Zip(stops), pair =>
        {
            Assert.Contains(pair.First.Words[1..], pair.Second.TextContent, StringComparison.Ordinal);
            Assert.Equal(pair.First.Valves.Select(v => v.Valve), pair.Second.QuerySelectorAll("a strong").Select(s => s.TextContent));
        });
        Assert.All(expected.Rules, r => Assert.Contains(r, page.Text, StringComparison.Ordinal));
        Assert.Contains(WorkOrder.Isolate, page.Text, StringComparison.Ordinal);
        Assert.Contains(WorkOrder.TurnByHand, page.Text, StringComparison.Ordinal);
        Assert.Equal(16, page.Document.QuerySelectorAll("main table tbody tr").Length);
    }

    [Fact]
    public async Task Get_ACardWithoutALayout_SaysWhatToAddAndWhere()
    {
        var file = (JsonObject)JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "demo", Four), TestContext.Current.CancellationToken))!;
        ((JsonObject)file["engine"]!).Remove("layout");
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, JobSetup.FromFile(System.Text.Encoding.UTF8.GetBytes(file.ToJsonString())).Setup!);
        FetchedPage page = await job.PageAsync("stops");
        Assert.Contains("the crank stops need the firing order and the cam events", page.Text, StringComparison.Ordinal);
        Assert.Contains($"/engines/{(await job.StoredAsync()).Summary.EngineId}/card", page.Document.QuerySelectorAll("main a").Select(a => a.GetAttribute("href")));
        Assert.Contains("on the heel of its cam", (await job.PageAsync("measure")).Text, StringComparison.Ordinal);
    }
}
