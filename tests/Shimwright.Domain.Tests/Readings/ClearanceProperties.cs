using FsCheck.Xunit;
using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

[Properties(Replay = "20250102,7", MaxTest = 200, QuietOnSuccess = true)]
public class ClearanceProperties
{
    [Property]
    public void After_ThinnerShim_NeverLowersTheExpectedClearance(ushort seed, byte ratio, byte thick, byte thinner)
    {
        ClearanceDistribution clearance = Drawn(seed);
        double ofTheTrain = 0.5 + (ratio / 170.0);
        Thickness fitted = Made.Measured(2.60);
        double Mean(double millimetres)
        {
            ThicknessDifference difference = fitted.Minus(Made.Measured(millimetres));
            return clearance.After(ClearanceChange.By(ofTheTrain * difference.Millimetres, 0.005)).Mean;
        }

        double thicker = 2.30 + (0.002 * thick);
        Assert.True(Mean(thicker - (0.002 * thinner)) >= Mean(thicker) - 1e-9);
    }

    [Property]
    public void Probability_WiderBand_IsNeverLess(ushort seed, byte below, byte above)
    {
        ClearanceDistribution clearance = Drawn(seed);
        ClearanceBand band = clearance.Band;
        double wider = clearance.Probability(band.Low - (0.001 * below), band.High + (0.001 * above));
        Assert.True(wider >= clearance.InBand - 1e-6, $"{wider} < {clearance.InBand}");
    }

    [Property]
    public void InBandAfter_WiderBand_IsNeverLess(ushort seed, byte below, byte above, sbyte shift)
    {
        ClearanceDistribution clearance = Drawn(seed);
        ClearanceBand band = clearance.Band;
        var wide = new ClearanceBand(Math.Max(0.01, band.Low - (0.0005 * below)), band.High + (0.0005 * above));

        // The same posterior, judged by another band: its masses stay where they are.
        double[] smooth = [.. clearance.Mass.ToArray()];
        var judged = new ClearanceDistribution(clearance.Grid, band, smooth, new double[smooth.Length]);
        var judgedWider = new ClearanceDistribution(clearance.Grid, wide, smooth, new double[smooth.Length]);
        var change = ClearanceChange.By(0.001 * shift, 0.006);
        Assert.True(judgedWider.InBandAfter(change) >= judged.InBandAfter(change) - 1e-9);
    }

    [Property]
    public void Chance_FourFeels_AddUpToOneAndNoneIsNothing(short play, byte leaves, bool hasSlips)
    {
        FeelProfile feel = hasSlips ? FeelProfile.Default : new FeelProfile(slip: 0);
        double gap = 0.2 + (play / 32768.0);
        double[] chances = [.. Enum.GetValues<Feel>().Select(f => feel.Chance(f, gap, 0.2, 1 + (leaves % 10)))];
        Assert.Equal(1, chances.Sum(), 1e-11);
        Assert.All(chances, c => Assert.InRange(c, 1e-12, 1));
    }

    private static ClearanceDistribution Drawn(int seed) => EngineEstimate.From(RandomCheck.Draw(seed)).Valves[0];
}
