using System.Globalization;
using AngleSharp.Dom;
using Bunit;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Tests.Pictures;

public class BandBarTests
{
    private static readonly ClearanceBand Band = new(0.10, 0.20);
    private static readonly EstimateRow Estimate = new(0.142, 0.006, 0.131, 0.153, 0.97, "in");

    [Fact]
    public void Render_AnEstimate_SaysItsNumbersToAScreenReader()
    {
        using var context = new BunitContext();
        IRenderedComponent<BandBar> bar = Draw(context, Estimate);
        Assert.Equal("E1: band 0.100 to 0.200 mm. Estimate: 0.142, between 0.131 and 0.153.", bar.Find("svg[role=img] > title").TextContent);
    }

    /// <summary>Band 0.1 wide and as much on either side: the field is the middle third of the 332 units between the edges.</summary>
    [Fact]
    public void Render_ABand_IsTheMiddleThirdAndTheMeanLiesWhereItShould()
    {
        using var context = new BunitContext();
        IRenderedComponent<BandBar> bar = Draw(context, Estimate);
        IElement field = bar.Find(".field");
        Assert.Equal(14 + (332 / 3.0), Number(field, "x"), 2);
        Assert.Equal(332 / 3.0, Number(field, "width"), 2);
        Assert.StartsWith(string.Create(CultureInfo.InvariantCulture, $"M{14 + (332 * (0.142 - 0.0) / 0.3):0.##} "), bar.Find(".mean").GetAttribute("d"), StringComparison.Ordinal);
    }

    [Fact]
    public void Render_NothingRead_IsPaleAndSaysSo()
    {
        using var context = new BunitContext();
        IRenderedComponent<BandBar> bar = Draw(context, Estimate, isExpected: true);
        Assert.Contains("expected", bar.Find("figure").ClassList);
        Assert.Contains("nothing read yet", bar.Find("figcaption").TextContent, StringComparison.Ordinal);
        Assert.Contains("Expected, nothing read yet: 0.142", bar.Find("title").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Render_APrediction_IsHollowBesideTheEstimate()
    {
        using var context = new BunitContext();
        IRenderedComponent<BandBar> bar = Draw(context, Estimate, predicted: new PredictedRow(0.16, 0.01));
        Assert.NotNull(bar.Find(".prediction-mean"));
        Assert.Contains("Expected after the change: 0.160, between 0.140 and 0.180.", bar.Find("title").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-0.05, 1)]
    [InlineData(0.05, 0)]
    public void Render_AnIntervalBelowNothing_MarksZero(double low, int marks)
    {
        using var context = new BunitContext();
        IRenderedComponent<BandBar> bar = Draw(context, Estimate with { Low = low });
        Assert.Equal(marks, bar.FindAll(".axis-text").Count);
    }

    [Fact]
    public void Render_InThou_WritesThou()
    {
        using var context = new BunitContext();
        IRenderedComponent<BandBar> bar = context.Render<BandBar>(p => p
            .Add(b => b.Valve, "E1").Add(b => b.Band, Band).Add(b => b.Estimate, Estimate).Add(b => b.Lengths, new LengthStyle(LengthUnit.Thou)));
        Assert.Contains("band 3.9 to 7.9 thou", bar.Find("title").TextContent, StringComparison.Ordinal);
    }

    /// <summary>Whatever is drawn stays on the drawing.</summary>
    [Theory]
    [InlineData(-0.4, 0.01, 0.05)]
    [InlineData(0.8, 0.9, 1.0)]
    public void Render_AFarEstimate_StaysOnTheDrawing(double low, double mean, double high)
    {
        var scale = BandScale.For(Band, BandScale.EndsOf(new EstimateRow(mean, 0.1, low, high, 0, "out"), new PredictedRow(0.15, 0.02)));
        double[] places = [.. new[] { low, mean, high, Band.Low, Band.High, 0.11, 0.19 }.Select(scale.X)];
        Assert.All(places, x => Assert.InRange(x, 14 - 1e-9, BandScale.Width - 14 + 1e-9));
    }

    private static IRenderedComponent<BandBar> Draw(BunitContext context, EstimateRow estimate, bool isExpected = false, PredictedRow? predicted = null) =>
        context.Render<BandBar>(p => p.Add(b => b.Valve, "E1").Add(b => b.Band, Band).Add(b => b.Estimate, estimate)
            .Add(b => b.IsExpected, isExpected).Add(b => b.Predicted, predicted));

    private static double Number(IElement element, string name) => double.Parse(element.GetAttribute(name)!, CultureInfo.InvariantCulture);
}
