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
        Assert.Contains("Nobody knows both of any shim yet", page.Text, StringComparison.Ordinal);
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
        Assert.Contains("3 shims count. From 5 on", few.Text, StringComparison.Ordinal);
        Assert.Contains("1 of the shims differs from the mark by more than 0.04 mm", few.Text, StringComparison.Ordinal);
        Assert.Equal(["2.45", "2.442", "−0.008"], few.Document.QuerySelectorAll("table tbody tr:first-child td").Take(3).Select(c => c.TextContent.Trim()));
        Assert.Equal($"/jobs/{job}/record", few.Document.QuerySelector("table tbody a")!.GetAttribute("href"));

        await AddAsync(bench, 0.004);
        FetchedPage enough = await FetchedPage.GetAsync(client, "/drawer/marks");
        Assert.Contains("6 shims: the micrometer says −0.002 mm against the mark on average", enough.Text, StringComparison.Ordinal);
        Assert.Contains("these shims do not contradict that", enough.Text, StringComparison.Ordinal);
        Assert.Single(enough.Document.QuerySelectorAll(".marks-picture .mean"));
        Assert.Equal("Micrometer less mark, against the mark", enough.Document.QuerySelector(".marks-picture title")!.TextContent);
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
        Assert.Contains("1 there, 1 free", page.Text, StringComparison.Ordinal);
        Assert.Contains("measured, and kept under its size now", page.Text, StringComparison.Ordinal);
        FetchedPage marks = await FetchedPage.GetAsync(client, "/drawer/marks");
        Assert.Contains("In the drawer", marks.Document.QuerySelector("table tbody")!.TextContent, StringComparison.Ordinal);
        Assert.Single(marks.Document.QuerySelectorAll(".marks-picture .dot"));
    }

    [Fact]
    public void Verdict_SpreadAndMean_AreHeldAgainstWhatIsTaken()
    {
        string Of(params double[] differences) => MarkWords.Verdict(MarkSpread.Of(differences)!, LengthStyle.Millimetres);
        Assert.Contains("stray more than that", Of(-0.03, 0.03, -0.035, 0.028, -0.031, 0.033, 0.03, -0.03), StringComparison.Ordinal);
        Assert.Contains("stray less than that", Of(-0.0001, 0.0001, -0.0001, 0.0001, 0, 0.0001, -0.0001, 0.0001), StringComparison.Ordinal);
        Assert.Contains("thinner than their marks", Of(-0.03, -0.02, -0.025, -0.028, -0.031, -0.02), StringComparison.Ordinal);
        Assert.Contains("look at its zero", Of(0.03, 0.02, 0.025, 0.028, 0.031, 0.02), StringComparison.Ordinal);
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
