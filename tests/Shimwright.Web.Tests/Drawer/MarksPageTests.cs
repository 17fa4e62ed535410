using System.Net;
using Shimwright.Bench.Drawer;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Drawer;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Drawer;

public class MarksPageTests
{
    private static readonly string[] Valves = ["I1", "I2", "E1", "E2"];

    [Fact]
    public async Task Marks_NothingKnown_SaysHowItComesToBeKnown()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await FetchedPage.GetAsync(client, "/drawer/marks");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("No shim has both readings yet", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.Document.QuerySelectorAll("svg"));
    }

    [Fact]
    public async Task Marks_FewThenEnough_AreDrawnListedAndCompared()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid job = await AddAsync(bench, 0);
        FetchedPage few = await FetchedPage.GetAsync(client, "/drawer/marks");
        Assert.Equal(4, few.Document.QuerySelectorAll(".marks-picture circle").Length);
        Assert.Contains("Measure 2 more marked shims", few.Text, StringComparison.Ordinal);
        Assert.Contains("1 not counted: more than 0.04 mm off its mark", few.Text, StringComparison.Ordinal);
        Assert.Equal("Mark 2.45, measured 2.442, off −0.008", few.Document.QuerySelector(".rows li span")!.TextContent);
        Assert.Equal($"/jobs/{job}/record", few.Document.QuerySelector(".rows a")!.GetAttribute("href"));

        await AddAsync(bench, 0.004);
        FetchedPage enough = await FetchedPage.GetAsync(client, "/drawer/marks");
        Assert.Contains("−0.002 mm", enough.Text, StringComparison.Ordinal);
        Assert.Contains("scatter as assumed", enough.Text, StringComparison.Ordinal);
        Assert.Single(enough.Document.QuerySelectorAll(".marks-picture .mean"));
        Assert.Equal("Micrometer minus mark", enough.Document.QuerySelector(".marks-picture title")!.TextContent);
    }

    [Fact]
    public async Task Measure_OneOfTheDrawer_IsKeptUnderItsSizeAndDrawn()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        ShimSize marked = ShimSize.Of(9.48, 2.45, "marked");
        await bench.Database.Drawer.AddAsync(new(marked, 2, "B4"), new(Guid.NewGuid(), "phone"), TestContext.Current.CancellationToken);
        string address = DrawerWords.AddressOf(marked);
        foreach ((string typed, string words) in new[] { ("thin", "found \"thin\""), ("", "nothing was entered"), ("2.6", "another shim"), ("245", "enter the size of a shim") })
        {
            FetchedPage refused = await (await FormPost.OnAsync(client, address, "measure")).With("Measure.Thickness", typed).SubmitAsync();
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
            Assert.Contains(words, refused.Text, StringComparison.Ordinal);
            Assert.Equal(typed, refused.Document.QuerySelector("[name='Measure.Thickness']")!.GetAttribute("value") ?? "");
        }

        FetchedPage page = await (await FormPost.OnAsync(client, address, "measure")).With("Measure.Thickness", "2,443").SubmitAsync();
        Assert.Contains("1 in stock, 1 free", page.Text, StringComparison.Ordinal);
        Assert.Contains("measured, moved to its own size", page.Text, StringComparison.Ordinal);
        FetchedPage marks = await FetchedPage.GetAsync(client, "/drawer/marks");
        Assert.Contains("Drawer", marks.Document.QuerySelector(".rows")!.TextContent, StringComparison.Ordinal);
        Assert.Single(marks.Document.QuerySelectorAll(".marks-picture .dot"));
    }

    [Fact]
    public void Verdict_SpreadAndMean_AreJudgedAgainstWhatIsAssumed()
    {
        static MarkSpread Of(params double[] differences) => MarkSpread.Of(differences)!;
        Assert.Contains("scatter more than assumed", MarkWords.Why(Of(-0.03, 0.03, -0.035, 0.028, -0.031, 0.033, 0.03, -0.03)), StringComparison.Ordinal);
        Assert.Contains("scatter less than assumed", MarkWords.Why(Of(-0.0001, 0.0001, -0.0001, 0.0001, 0, 0.0001, -0.0001, 0.0001)), StringComparison.Ordinal);
        Assert.Contains("thinner than their marks", MarkWords.Why(Of(-0.03, -0.02, -0.025, -0.028, -0.031, -0.02)), StringComparison.Ordinal);
        Assert.Contains("zero of the micrometer", MarkWords.Why(Of(0.03, 0.02, 0.025, 0.028, 0.031, 0.02)), StringComparison.Ordinal);
        Assert.StartsWith("Measure every shim", MarkWords.Verdict(Of(0.03, 0.02, 0.025, 0.028, 0.031, 0.02)), StringComparison.Ordinal);
        Assert.Equal("Use the marks", MarkWords.Verdict(Of(-0.0001, 0.0001, -0.0001, 0.0001, 0, 0.0001)));
        Assert.Equal("0.000", MarkWords.Signed(-0.0001, LengthStyle.Millimetres));
        Assert.Equal("+0.5", MarkWords.Signed(0.0127, new(LengthUnit.Thou)));
    }

    /// <summary>A job with three shims that are known both ways and one that is another shim.</summary>
    private static async Task<Guid> AddAsync(RunningBench bench, double more)
    {
        Guid engine = await DemoEngine.AddAsync(bench);
        double[] differences = [-0.008, -0.004, 0, 0.1];
        return await bench.Database.Jobs.StartAsync(engine, DemoEngine.Setup().Setup!,
            [
                .. Valves.Index().SelectMany(v => new JobFact[]
                {
                    new ThicknessFound(v.Item, 2.45 + (0.05 * v.Index), "marked"),
                    new ThicknessFound(v.Item, 2.45 + (0.05 * v.Index) + differences[v.Index] + more, "micrometer"),
                }),
            ], Guid.NewGuid(), "test", TestContext.Current.CancellationToken);
    }
}
