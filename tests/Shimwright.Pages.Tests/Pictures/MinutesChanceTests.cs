using Bunit;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Tests.Pictures;

public class MinutesChanceTests : BunitContext
{
    private static readonly ChancePoint[] Plans =
    [
        new(1, 308, 0.001, false, false), new(2, 178, 0.886, false, true), new(3, 169, 0.952, true, false), new(4, 172, 0.958, false, false),
    ];

    [Fact]
    public void Picture_Plans_SaysEachInWords()
    {
        string words = Drawn(Plans).Find("desc").TextContent;
        Assert.Contains("Plan 3: 2 h 49 min, 95.2 % chance that all pass, advised.", words, StringComparison.Ordinal);
        Assert.Contains("Plan 2: 2 h 58 min, 88.6 % chance that all pass, shown here.", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Picture_Plans_MarksTheAdvisedAndTheShownOneByShape()
    {
        IRenderedComponent<MinutesChance> picture = Drawn(Plans);
        Assert.Single(picture.FindAll("svg.minutes-chance path.advised"));
        Assert.Single(picture.FindAll("svg.minutes-chance circle.shown"));
        Assert.Equal(3, picture.FindAll("svg.minutes-chance circle.plan").Count);
        Assert.Equal(["1", "2", "3", "4"], picture.FindAll("text.number").Select(t => t.TextContent).Order());
    }

    [Fact]
    public void Chart_MinutesAndChance_GrowRightAndUp()
    {
        var chart = new ChanceChart(Plans);
        Assert.True(chart.X(100) < chart.X(200));
        Assert.True(chart.Y(0.9) < chart.Y(0.1));
        Assert.InRange(Plans.Max(p => p.Minutes), chart.First, chart.Last);
        Assert.True(chart.First > 0, "The picture is as large as what it shows.");
        Assert.All(chart.Points, p => Assert.InRange(p.X, ChanceChart.Left, ChanceChart.Width - ChanceChart.Right));
    }

    [Theory]
    [InlineData(0.13)]
    [InlineData(0)]
    [InlineData(88)]
    [InlineData(99_000)]
    public void Chart_AnyMinutes_HasFewRoundMarks(double minutes)
    {
        var chart = new ChanceChart([new(1, minutes, 0.9, true, true)]);
        Assert.InRange(chart.MinuteMarks.Count(), 2, 7);
        Assert.True(chart.Last >= minutes);
    }

    /// <summary>Plans that lie close together must still be told apart.</summary>
    [Fact]
    public void Chart_PlansCloseTogether_KeepsTheirNumbersApart()
    {
        var chart = new ChanceChart([.. Enumerable.Range(1, 6).Select(k => new ChancePoint(k, 170 + k, 0.95 + (k * 0.001), k == 3, k == 2))]);
        foreach (PlacedPoint one in chart.Points)
        {
            Assert.DoesNotContain(chart.Points, other => other != one && Math.Abs(other.LabelX - one.LabelX) < 10 && Math.Abs(other.LabelY - one.LabelY) < 10);
        }
    }

    private IRenderedComponent<MinutesChance> Drawn(IReadOnlyList<ChancePoint> points) =>
        Render<MinutesChance>(p => p.Add(m => m.Points, points));
}
