using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Wear;

/// <summary>
/// The local level model of the Nile is a valve with rate 0: the flow its clearance, in units of 0.0001, read once a year as a
/// plain number. Nothing astray, a start after the first year as the exact diffuse start has it.
/// </summary>
[Proof(Formulas.Filter, Evidence.Published, "The flow of the Nile, local level model (Durbin and Koopman, chapter 2): published variances; states computed in numpy.")]
public class NileTests
{
    private const double Unit = 1e-4;
    private const double UnrestPerInterval = 0.005;

    // Computed with 15099 and 1469.1, see data/published/nile/README.md: seven digits and more.
    [Theory]
    [PublishedFile("nile/nile.csv")]
    public void Follow_RateHeldAtNothing_GivesTheFilterOfTheLocalLevel(PublishedFile file)
    {
        double[] flows = Flows(file);
        IReadOnlyList<WearPoint> years = Follow(flows, 15099, 1469.1);

        Assert.Equal(100, years.Count);
        AssertPredicted(years[1].Predicted, 1120, 16568.1);
        Assert.Equal(31667.1, (years[1].Predicted.ClearanceVariance / (Unit * Unit)) + 15099, 1e-3);
        AssertPredicted(years[2].Predicted, 1140.927840, 9368.836379);
        WearState next = years[^1].Left.After(1, 1469.1 * Unit * Unit);
        AssertPredicted(next, 798.370293, 5501.257942);
        Assert.Equal(0.26704801, next.ClearanceVariance / (next.ClearanceVariance + (15099 * Unit * Unit)), 1e-7);
    }

    // J. Durbin and S. J. Koopman 2012, p. 37: 15099 and 1469.1; the likelihood and its digits computed, see the README.
    [Theory]
    [PublishedFile("nile/nile.csv")]
    public void Follow_MaximumLikelihood_GivesThePublishedVariances(PublishedFile file)
    {
        double[] flows = Flows(file);
        Assert.Equal(-632.5456251, LogLikelihood(flows, 15098.5183, 1469.1769), 1e-4);

        MinimizationResult best = NelderMeadSimplex.Minimum(
            ObjectiveFunction.Value(logs => -LogLikelihood(flows, Math.Exp(logs[0]), Math.Exp(logs[1]))),
            Vector<double>.Build.DenseOfArray([Math.Log(10000), Math.Log(1000)]), 1e-11, 400);

        Assert.Equal(15099, Math.Exp(best.MinimizingPoint[0]), 2.0);
        Assert.Equal(1469.1, Math.Exp(best.MinimizingPoint[1]), 1.0);
    }

    private static double[] Flows(PublishedFile file) => [.. PublishedRows.Rows(file).Select(row => row.Number("volume"))];

    private static void AssertPredicted(WearState state, double mean, double variance)
    {
        Assert.Equal(1, state.Clearance / (mean * Unit), 1e-8);
        Assert.Equal(1, state.ClearanceVariance / (variance * Unit * Unit), 1e-8);
        Assert.Equal(0, state.Rate);
    }

    private static IReadOnlyList<WearPoint> Follow(double[] flows, double reading, double level)
    {
        var engine = new Engine(
            "Nile", new Valvetrain(Adjuster.ShimUnderBucket), [new Valve("N", 1, ValveSide.Intake, "bank", new ClearanceBand(0.06, 0.12))]);
        var wear = new UsualWear(UnrestPerInterval * UnrestPerInterval / (level * Unit * Unit), 0, 0);
        WearCheck[] years = [.. flows.Select((flow, year) => new WearCheck(
            year, new EngineCheck(engine, [new ValveReadings(values: [new DirectValue(flow * Unit, Math.Sqrt(reading) * Unit)])])))];
        WearState start = WearState.At(flows[0] * Unit, reading * Unit * Unit, wear.RateOf(ValveSide.Intake));
        return WearFilter.Follow([start], years, wear, strayWeight: 0).Valves[0];
    }

    /// <summary>The likelihood of the years after the first, from what the filter predicted.</summary>
    private static double LogLikelihood(double[] flows, double reading, double level) => Follow(flows, reading, level).Skip(1).Zip(flows.Skip(1)).Sum(year =>
    {
        double spread = (year.First.Predicted.ClearanceVariance / (Unit * Unit)) + reading;
        double miss = year.Second - (year.First.Predicted.Clearance / Unit);
        return -0.5 * (Math.Log(2 * Math.PI * spread) + (miss * miss / spread));
    });
}
