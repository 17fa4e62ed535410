using Shimwright.Domain.Advice;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Advice;

/// <summary>What is weighed valve by valve against what it comes to once it is planned through: only what seems near to paying is planned through at all.</summary>
public class LocalWorthTests(ITestOutputHelper output)
{
    private static readonly PlanCosts Cover = new(access: new Dictionary<string, double> { ["cover"] = 25 });
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23];

    /// <summary>Two valves under one cover, the first as good as can be: what is learnt of the second decides whether the cover comes off at all.</summary>
    [Theory]
    [InlineData(0.090)]
    [InlineData(0.105)]
    [InlineData(0.115)]
    [InlineData(0.125)]
    [InlineData(0.140)]
    public void Saving_OneValveUnderTheCoverInDoubt_IsNearlyThatOfThePlans(double mean) => AssertNear(0.150, mean, 0.02, Cover);

    /// <summary>The first one has to be changed anyway: the cover is off, and the second one is changed for its shim alone. A minute is what the two have to do with each other.</summary>
    [Theory]
    [InlineData(0.105)]
    [InlineData(0.125)]
    public void Saving_CoverOffAnyway_IsNearlyThatOfThePlans(double mean) => AssertNear(0.050, mean, 0.02, Cover, 1);

    /// <summary>Good as things stand, and within reach: disturbing it costs 5 minutes more, but no longer where it turns out to be bad.</summary>
    [Theory]
    [InlineData(0.1350)]
    [InlineData(0.1365)]
    public void Saving_GoodValve_IsNearlyThatOfThePlans(double mean) => AssertNear(0.150, mean, 0.0105, new PlanCosts());

    private void AssertNear(double first, double second, double doubt, PlanCosts costs, double near = 0.01)
    {
        double most = Apart(new(
            Made.Check(Made.Value(first, 0.003), Made.Value(second, doubt)), [Made.Measured(2.5), Made.Measured(2.5)],
            new Stock([.. new[] { 2.30, 2.35, 2.40, 2.45 }.Select(t => new DrawerShims(Made.Measured(t), 2))], []), costs));
        Assert.True(most < near, $"{most} minutes apart");
    }

    /// <summary>The same with screws, which are set anew from what is known then.</summary>
    [Theory]
    [InlineData(0.090)]
    [InlineData(0.115)]
    [InlineData(0.140)]
    public void Saving_OneScrewUnderTheCoverInDoubt_IsNearlyThatOfThePlans(double mean)
    {
        Engine engine = new("Loaner", new Valvetrain(Adjuster.Screw, 1, 0.75), [Made.Valve("I1"), Made.Valve("I2")]);
        double most = Apart(new(new EngineCheck(engine, [Made.Value(0.150, 0.003), Made.Value(mean, 0.02)]), [], null, Cover));
        Assert.True(most < 0.3, $"{most} minutes apart");
    }

    /// <summary>How far apart the two are over all blades at the second valve, minutes; some blade saves something.</summary>
    private double Apart(PlanRequest request)
    {
        var now = new Outlook(request);
        var local = new LocalWorth(now, 1, 2000);
        (double most, double best) = (0, 0);
        foreach (double blade in Blades)
        {
            double[][] chances = request.Check.Feel.ChancesAt(
                local.Gaps, blade, Squares.CombinedStandardUncertainty(request.Check.Feel.StandardDeviationOf(1), request.Check.Feel.Doubt));
            double alone = local.Least - chances.Sum(c => local.ChanceOf(c) * local.LeastUnder(c, local.ChanceOf(c)));
            double through = TrialWorth.Saving(now, TrialWorth.OfBlade(now, 1, blade, 1));
            output.WriteLine(FormattableString.Invariant($"{blade}: {alone:0.000} alone, {through:0.000} through"));
            (most, best) = (Math.Max(most, Math.Abs(alone - through)), Math.Max(best, through));
        }

        Assert.True(best > 0.5, $"the best saves {best}");
        return most;
    }
}
