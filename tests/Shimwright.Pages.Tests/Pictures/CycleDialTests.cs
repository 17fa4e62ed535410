using Bunit;
using Shimwright.Domain.CrankStops;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Tests.Pictures;

public class CycleDialTests
{
    /// <summary>
    /// Intake 12 before top to 48 after bottom dead centre, ramp 20 (demo/02): off the heel from 360 - 12 - 20 = 328 for
    /// 12 + 180 + 48 + 2 · 20 = 280 degrees. Cylinder 3 fires 180 later: 508 to 788, which is 68.
    /// </summary>
    [Theory]
    [InlineData("I1", "328° to 608°")]
    [InlineData("I5", "508° to 68°")]
    public void Of_TheFour_SaysWhenAValveIsOffItsHeel(string valve, string words) =>
        Assert.Equal([words], ChartOf("02-worn-four.json").Rows.First(r => r.Valve == valve).Off.Select(o => o.Words));

    [Theory]
    [InlineData("01-flood-pump.json")]
    [InlineData("02-worn-four.json")]
    public void Of_ADemoEngine_ShowsWhatTheHeelLeavesAndReadsNobodyThere(string file)
    {
        Job job = JobOf(file);
        CrankLayout layout = job.ToLayout();
        var chart = CycleChart.Of(layout, StopsResult.Of(job));
        Assert.All(chart.Rows.Zip(layout.Valves), pair =>
        {
            Assert.Equal(CrankAngle.Cycle, pair.First.Off.Sum(o => o.To - o.From) + layout.HeelOf(pair.Second).Sum(h => h.Length), 6);
            Assert.All(pair.First.Off, off => Assert.True(
                CrankAngle.Turn(off.From, pair.First.Angle) >= off.To - off.From + pair.First.Slack - 1e-6,
                $"{pair.First.Valve} is read at {pair.First.Angle}, within {off.Words} and its slack."));
        });
    }

    /// <summary>A decompressor holds the valve off its heel a second time: two stretches, and two pieces of heel between.</summary>
    [Fact]
    public void Of_ADecompressor_HasTwoStretches()
    {
        var layout = new CrankLayout([1], null, [new TimedValve("E1", 1, Domain.Engines.ValveSide.Exhaust, new CamEvents(50, 10), [new OffHeel(600, 40)])], ramp: 10);
        StopsResult stops = new("", [new StopRow(0, 0, [new StoppedRow("E1", 60)], "start", [])], [], []);
        Assert.Equal(["120° to 380°", "590° to 650°"], CycleChart.Of(layout, stops).Rows[0].Off.Select(o => o.Words));
    }

    [Fact]
    public void Render_TheFour_HasALineAValveItsReadingAndTheStops()
    {
        using var context = new BunitContext();
        CycleChart chart = ChartOf("02-worn-four.json");
        IRenderedComponent<CycleDial> dial = context.Render<CycleDial>(p => p.Add(d => d.Chart, chart));
        Assert.Equal(16, dial.FindAll(".heel").Count);
        Assert.Equal(16, dial.FindAll(".read").Count);
        Assert.Equal(2, dial.FindAll(".stop").Count);
        Assert.Equal(["1", "3", "4", "2"], dial.FindAll(".mark-text").Select(m => m.TextContent));
        Assert.Contains("stops at 0°, 360°", dial.Find("svg[role=img] > title").TextContent, StringComparison.Ordinal);
    }

    /// <summary>Every valve of the four has one stretch; those that pass 720 are drawn in two pieces.</summary>
    [Fact]
    public void Render_AStretchThatPasses720_IsDrawnInTwoPieces()
    {
        using var context = new BunitContext();
        CycleChart chart = ChartOf("02-worn-four.json");
        IRenderedComponent<CycleDial> dial = context.Render<CycleDial>(p => p.Add(d => d.Chart, chart));
        int passing = chart.Rows.Count(r => r.Off.Any(o => o.To > CrankAngle.Cycle));
        Assert.True(passing > 0);
        Assert.Equal(16 + passing, dial.FindAll(".off").Count);
    }

    private static CycleChart ChartOf(string file)
    {
        Job job = JobOf(file);
        return CycleChart.Of(job.ToLayout(), StopsResult.Of(job));
    }

    private static Job JobOf(string file) =>
        JobFile.Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "demo", file)), JobPurpose.Stops).Job!;
}
