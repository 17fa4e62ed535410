using System.Globalization;
using AngleSharp.Dom;
using Bunit;
using Shimwright.Bench.Due;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Tests.Pictures;

public class RiskCurveTests
{
    private static readonly KeptForecast Forecast = new(
        2, 100, 115, false, new(100, DateTime.UnixEpoch), new(null, UsageSource.Unknown), null, 0.1, [new(100, 0), new(115, 0.1), new(130, 0.3)]);

    /// <summary>The clock runs from 54 to 328, the chance from 116 at 0 to 12 at 50 %.</summary>
    [Fact]
    public void Render_CheckByHalfway_MarksItAndTheLimitWhereTheyAre()
    {
        using var context = new BunitContext();
        IRenderedComponent<RiskCurve> picture = context.Render<RiskCurve>(p => p.Add(c => c.Forecast, Forecast));
        Assert.Equal(191, Number(picture.Find(".by"), "x1"), 0.01);
        Assert.Equal(116 - (0.2 * 104), Number(picture.Find(".limit"), "y1"), 0.01);
        Assert.StartsWith("M54 116 L191 95.2 L328 53.6", picture.Find(".curve").GetAttribute("d"), StringComparison.Ordinal);
    }

    [Fact]
    public void Render_AnyForecast_SaysItsNumbersToAScreenReader()
    {
        using var context = new BunitContext();
        IRenderedComponent<RiskCurve> picture = context.Render<RiskCurve>(p => p.Add(c => c.Forecast, Forecast).Add(c => c.Clocks, new ClockStyle("km")));
        Assert.Equal(
            "Chance that any valve is outside its band: under 1 % at 100 km, 10 % at 115 km (check by), and 30 % at 130 km (end of the interval). Risk limit 10 %.",
            picture.Find("svg[role=img] > desc").TextContent);
    }

    [Fact]
    public void Render_RiskThereAlready_StaysInThePicture()
    {
        using var context = new BunitContext();
        KeptForecast now = Forecast with { CheckBy = 100, Curve = [new(100, 0.4), new(130, 1)] };
        IRenderedComponent<RiskCurve> picture = context.Render<RiskCurve>(p => p.Add(c => c.Forecast, now));
        Assert.Equal(54, Number(picture.Find(".by"), "x1"), 0.01);
        Assert.StartsWith("M54 74.4 L328 12", picture.Find(".curve").GetAttribute("d"), StringComparison.Ordinal);
    }

    private static double Number(IElement element, string name) => double.Parse(element.GetAttribute(name)!, CultureInfo.InvariantCulture);
}
