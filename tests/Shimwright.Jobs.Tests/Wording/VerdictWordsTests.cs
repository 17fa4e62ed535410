using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Tests.Wording;

public class VerdictWordsTests
{
    private static readonly double[] Blades = [0.08, 0.10, 0.13, 0.15, 0.18, 0.20];

    [Theory]
    [InlineData(PassResult.Passes, 0.97, 0.9, null)]
    [InlineData(PassResult.NotFelt, 0.97, null, null)]
    [InlineData(PassResult.TooDoubtful, 0.60, null, null)]
    [InlineData(
        PassResult.TooDoubtful, 0.7996, 0.9,
        "I1 does not pass: 79.9 % chance in band; 80 % is the least. Feel it again with the 0.10 and 0.18 mm blades, or plan it again.")]
    [InlineData(
        PassResult.FeltTooLittle, 0.97, 0.38,
        "I1: felt too little to pass. What was felt gives a 38 % chance in band by itself; 50 % is the least. Feel it again with the 0.10 and 0.18 mm blades.")]
    public void WhyNot_EachResult_NamesTheRuleThatFailed(PassResult result, double inBand, double? alone, string? words) =>
        Assert.Equal(words, Why(result, inBand, alone, Blades));

    [Theory]
    [InlineData(new[] { 0.05, 0.10 }, "the 0.10 mm blade")]
    [InlineData(new[] { 0.20, 0.25 }, "the 0.20 mm blade")]
    [InlineData(new[] { 0.13, 0.15 }, "another blade")]
    [InlineData(new double[0], "another blade")]
    public void WhyNot_BladesOnOneSideOfTheBandOnly_NamesThoseThereAre(double[] blades, string words) =>
        Assert.Contains($"Feel it again with {words}.", Why(PassResult.FeltTooLittle, 0.9, 0.2, blades), StringComparison.Ordinal);

    private static string? Why(PassResult result, double inBand, double? alone, double[] blades)
    {
        var valve = new Valve("I1", 1, ValveSide.Intake, "cover", new ClearanceBand(0.12, 0.18));
        var check = new EngineCheck(new Engine("Loaner", new Valvetrain(Adjuster.ShimUnderBucket), [valve]), [ValveReadings.None]);
        ClearanceDistribution predicted = EngineEstimate.From(check).Valves[0];
        return VerdictWords.WhyNot(
            new(valve, predicted, new ClearanceEstimate(0.15, 0.01, 0.13, 0.17, inBand), alone, result, null), PassRule.Usual, blades, LengthWords.Millimetres);
    }
}
