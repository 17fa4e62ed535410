using AngleSharp.Dom;
using Bunit;
using Shimwright.Domain.Wear;
using Shimwright.Jobs;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Pictures;
using Shimwright.Pages.Tests.Samples;

namespace Shimwright.Pages.Tests.Pictures;

public class TrendPictureTests
{
    private const int I2 = 1;

    [Fact]
    public void Chart_DemoEngine_HasTheFiguresOfTheFilter()
    {
        EngineWear wear = Wear();
        TrendChart chart = Chart(wear);
        Assert.Equal(wear.Valves[I2].Select(p => p.Found.Clearance), chart.Points.Select(p => p.Clearance));
        Assert.Equal([false, true, false], chart.Points.Select(p => p.WasChanged));
        Assert.Equal(0.05, chart.Points[1].Left - chart.Points[1].Clearance, 1e-9);
        WearState ahead = wear.Now[I2].After(50, wear.Usual.Diffusion);
        Assert.Equal((208.0, ahead.Clearance, 1.959964 * ahead.ClearanceSpread), chart.Fan[^1]);
    }

    [Fact]
    public void Chart_Axes_HoldEverythingThatIsDrawn()
    {
        TrendChart chart = Chart(Wear());
        Assert.All(chart.Points, p =>
        {
            Assert.InRange(chart.X(p.Clock), TrendChart.Left, TrendChart.Width - TrendChart.Right);
            Assert.InRange(chart.Y(p.Clearance + p.Reach), TrendChart.Top, TrendChart.Height - TrendChart.Bottom);
            Assert.InRange(chart.Y(p.Clearance - p.Reach), TrendChart.Top, TrendChart.Height - TrendChart.Bottom);
        });
        Assert.InRange(chart.ClockMarks.Count(), 2, 6);
        Assert.InRange(chart.ClearanceMarks.Count(), 2, 6);
    }

    [Fact]
    public void Chart_InThou_MarksRoundThou()
    {
        EngineWear wear = Wear();
        TrendChart chart = new(wear, WearSmoother.Smooth(wear)[I2], I2, ClockStyle.Hours, new LengthStyle(LengthUnit.Thou));
        Assert.All(chart.ClearanceMarks, m => Assert.Equal(0, double.Parse(m.Words, System.Globalization.CultureInfo.InvariantCulture) % 0.5));
    }

    [Fact]
    public void Render_DemoEngine_DrawsReadingsChangeFanAndWords()
    {
        using var context = new BunitContext();
        IRenderedComponent<TrendPicture> picture = context.Render<TrendPicture>(p => p
            .Add(c => c.Valve, "I2").Add(c => c.Chart, Chart(Wear())).Add(c => c.CheckBy, 176).Add(c => c.Name, "i2"));
        Assert.Equal(3, picture.FindAll(".read").Count);
        Assert.Single(picture.FindAll(".changed"));
        Assert.Single(picture.FindAll(".fan"));
        Assert.Single(picture.FindAll("line.by"));
        IElement words = picture.Find("svg[role=img] > desc");
        Assert.Contains("Limits 0.150-0.220 mm.", words.TextContent, StringComparison.Ordinal);
        Assert.Contains("at 103 h, then changed to", words.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 10, 6)]
    [InlineData(0.08, 0.21, 6)]
    [InlineData(-3, 12_345, 5)]
    public void Between_AnyEnds_AreFewRoundNumbersInThem(double low, double high, int most)
    {
        IReadOnlyList<double> ticks = Ticks.Between(low, high, most);
        Assert.InRange(ticks.Count, 2, most);
        Assert.All(ticks, t => Assert.InRange(t, low - 1e-9, high + 1e-9));
    }

    private static EngineWear Wear() => JobFile.Read(DemoFile.Read("09-third-check.json"), JobPurpose.Forecast).Job!.ToEngineWear();

    private static TrendChart Chart(EngineWear wear) => new(wear, WearSmoother.Smooth(wear)[I2], I2, ClockStyle.Hours, LengthStyle.Millimetres);
}
