using System.Net;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Drawer;

public class DrawerPageTests
{
    private static readonly ShimSize Size = ShimSize.Of(9.48, 2.415, "micrometer");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task PutIn_CountTakeBack_EachShowsOnThePages()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage empty = await FetchedPage.GetAsync(client, "/drawer");
        Assert.Contains("The drawer is empty", empty.Text, StringComparison.Ordinal);
        Assert.NotNull(empty.Document.QuerySelector("nav a[href='/drawer']"));

        FetchedPage page = await FormPost.On(client, empty, "put-in").With("PutIn.Diameter", "9,48").With("PutIn.Thickness", "2.415 mm")
            .With("PutIn.Count", "3").With("PutIn.Place", "B4").With("PutIn.Price", "7.5").With("PutIn.By", "micrometer").SubmitAsync();
        AngleSharp.Dom.IElement line = page.Document.QuerySelectorAll(".drawer > li").Single();
        Assert.Equal(["2.415", "3 free", "B4"], line.QuerySelector("summary")!.Children.Select(c => c.TextContent.Trim()));
        string[] facts = [.. line.QuerySelectorAll("dd").Select(d => d.TextContent.Trim())];
        Assert.Equal(["3", "micrometer"], facts[..2]);
        Assert.StartsWith("7.50", facts[2], StringComparison.Ordinal);
        string shim = line.QuerySelector("a")!.GetAttribute("href")!;

        FetchedPage counted = await (await FormPost.OnAsync(client, shim, "count")).With("Count.Count", "1").SubmitAsync();
        Assert.Contains("1 in stock, 1 free", counted.Text, StringComparison.Ordinal);
        Assert.Contains("compartment B4", counted.Text, StringComparison.Ordinal);
        FetchedPage back = await FormPost.On(client, counted, "undo-2").SubmitAsync();
        Assert.Contains("3 in stock, 3 free", back.Text, StringComparison.Ordinal);
        Assert.Contains("entry 2 undone", back.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await FetchedPage.GetAsync(client, "/drawer/shim?diameter=1&thickness=2&by=marked")).Status);
    }

    [Theory]
    [InlineData("PutIn.Count", "some", "found \"some\"")]
    [InlineData("PutIn.Count", "0", "put at least one in")]
    [InlineData("PutIn.Thickness", "245", "enter the size of a shim")]
    [InlineData("PutIn.Thickness", "", "nothing was entered")]
    [InlineData("PutIn.By", "ruler", "allowed is marked, calliper, micrometer")]
    [InlineData("PutIn.Price", "-1", "allowed is 0 to 1000000")]
    public async Task PutIn_WhatCannotBe_IsRefusedAndStaysInTheField(string field, string typed, string words)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await (await FormPost.OnAsync(client, "/drawer", "put-in")).With("PutIn.Diameter", "9.48").With("PutIn.Thickness", "2.4")
            .With("PutIn.Count", "3").With(field, typed).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(field == "PutIn.Diameter" ? typed : "9.48", page.Document.QuerySelector("[name='PutIn.Diameter']")!.GetAttribute("value"));
        Assert.Empty(await bench.Database.Drawer.LotsAsync(Cancel));
    }

    [Fact]
    public async Task TakeIn_BadLinesThenClean_ListsAllAndTakesNothingUntilConfirmed()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage bad = await LookAsync(client, "diameter;thickness;count;by\n9,48;2,45;3;micrometer\n9,48;2,5;many;marked\n9,48;245;1;marked\n9,48;2,45;1;micrometer\n");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, bad.Status);
        Assert.Equal(["line 3, count", "line 4, thickness", "line 5, thickness"], bad.Document.QuerySelectorAll("[role=alert] li").Select(l => l.TextContent.Split(':')[0].Trim()));
        Assert.Null(bad.Document.QuerySelector("[name='Take.Text']"));

        FetchedPage clean = await LookAsync(client, "diameter;thickness;count;by;place\n9,48;2,45;3;micrometer;B4\n9,48;0.1 in;2;;\n");
        Assert.Contains("2 sizes, 2 with a new count", clean.Text, StringComparison.Ordinal);
        Assert.Empty(await bench.Database.Drawer.LotsAsync(Cancel));
        await FormPost.On(client, clean, "take").SubmitAsync();
        Assert.Equal([(2450, 3, "B4"), (2540, 2, "")], (await bench.Database.Drawer.LotsAsync(Cancel)).Select(l => (l.Size.Thickness, l.Count, l.Place)));

        string file = await client.GetStringAsync(new Uri("/drawer/drawer.csv", UriKind.Relative), Cancel);
        Assert.Equal("diameter_mm,thickness_mm,by,count,place,price\r\n9.48,2.450,micrometer,3,B4,\r\n9.48,2.540,marked,2,,\r\n", file);
        Assert.Contains("0 with a new count", (await LookAsync(client, file)).Text, StringComparison.Ordinal);
        Assert.Contains("2 labels on 1 sheet", (await FetchedPage.GetAsync(client, "/drawer/labels")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Plan_OfAnEngineWithAShimDiameter_UsesTheDrawerAsItIsAndItsFileAgrees()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench, details: new CardDetails { ShimDiameter = Size.DiameterMm });
        JobSetup setup = JobSetup.Begin(DemoEngine.Setup().Setup!.Card, 118, 20, new BenchSettings().ForJob(new Dictionary<string, double> { ["intake cam"] = 25 })).Setup!;
        JobFact[] facts =
        [
            new ClearanceRead(SheetPart.Check, "I1", 0.185, 0.003), new ClearanceRead(SheetPart.Check, "I2", 0.185, 0.003),
            new ClearanceRead(SheetPart.Check, "E1", 0.255, 0.003), new ClearanceRead(SheetPart.Check, "E2", 0.17, 0.003),
            .. new[] { "I1", "I2", "E1", "E2" }.Select(v => new ThicknessFound(v, 2.5, "micrometer")),
        ];
        Guid job = await bench.Database.Jobs.StartAsync(engine, setup, facts, Guid.NewGuid(), "test", Cancel);
        FetchedPage before = await FetchedPage.GetAsync(client, $"/jobs/{job}/plan");
        Assert.DoesNotContain("drawer, micrometer", before.Text, StringComparison.Ordinal);
        await bench.Database.Drawer.AddAsync(new(Size, 2), new(Guid.NewGuid(), "phone"), Cancel);
        FetchedPage page = await FetchedPage.GetAsync(client, $"/jobs/{job}/plan");
        Assert.Contains("drawer, micrometer", page.Text, StringComparison.Ordinal);

        byte[] file = await client.GetByteArrayAsync(new Uri($"/jobs/{job}/file", UriKind.Relative), Cancel);
        PlanResult plan = PlanResult.Of(JobFile.Read(file, JobPurpose.Plan).Job!);
        FetchedPage accepted = await FormPost.On(client, page, "accept").SubmitAsync();
        Assert.Equal(HttpStatusCode.OK, accepted.Status);
        JobSheet sheet = (await bench.Database.Jobs.FindAsync(job, Cancel))!.Sheet;
        Assert.Equal(plan.ChanceAll, sheet.Plan!.ChanceAll);
        Assert.Equal(1, (await bench.Database.Drawer.LotsAsync(Cancel))[0].Promised);
        Assert.DoesNotContain("rests on older figures", (await FetchedPage.GetAsync(client, $"/jobs/{job}/plan")).Text, StringComparison.Ordinal);
    }

    private static async Task<FetchedPage> LookAsync(HttpClient client, string text) =>
        await (await FormPost.OnAsync(client, "/drawer/take-in", "look")).WithFile("Look.File", "drawer.csv", System.Text.Encoding.UTF8.GetBytes(text)).SubmitAsync();
}
