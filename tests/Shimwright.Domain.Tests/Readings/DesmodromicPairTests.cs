using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>
/// A valve that is pushed open and pulled shut has two gaps. As its seat recedes it moves away from its closing lever by as much
/// as it moves towards its opening one: geometry. Each gap has a card of its own.
/// </summary>
public class DesmodromicPairTests
{
    // What the opening gap has lost, 0.05 under the middle of its band, the closing gap has gained: the two estimates are mirror
    // images about their middles, doubt and all.
    [Fact]
    public void From_OpenerAndCloserOfOneSeat_AreMirrorImages()
    {
        ClearanceEstimate opener = Estimate(GapSense.Opening, 0.15 - 0.05);
        ClearanceEstimate closer = Estimate(GapSense.Closing, 0.15 + 0.05);
        Assert.Equal(0.15 - opener.Mean, closer.Mean - 0.15, 1e-6);
        Assert.Equal(opener.StandardDeviation, closer.StandardDeviation, 1e-6);
        Assert.Equal(opener.InBand, closer.InBand, 1e-6);
        Assert.Equal(0.30 - opener.Low, closer.High, 1e-5);
    }

    // Before anything is felt the one is expected to be tight and the other loose; a card that had the wrong sense would not be.
    [Fact]
    public void From_NothingRead_ExpectsTheCloserToBeLoose()
    {
        Assert.True(Estimate(GapSense.Opening).Mean < 0.14);
        Assert.True(Estimate(GapSense.Closing).Mean > 0.16);
    }

    // The closing shim sits under its collar: a thicker one brings the lever nearer, as a thicker opening shim does.
    [Fact]
    public void Wanted_LooseCloser_IsAThickerShim() =>
        Assert.Equal(2.55, Leverage.Of(new Valvetrain(Adjuster.FingerFollower)).Wanted(2.50, 0.20, 0.15), 1e-12);

    private static ClearanceEstimate Estimate(GapSense sense, params double[] values)
    {
        var engine = new Engine("Desmodromic", Made.Bucket, [Made.Valve("I1"), Made.Valve("I2")], null, sense);
        var readings = new ValveReadings(values: values.Select(v => new DirectValue(v, 0.01)));
        return EngineEstimate.From(new EngineCheck(engine, [readings, ValveReadings.None])).Valves[0].Summarise();
    }
}
