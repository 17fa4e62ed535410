using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Drawer;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Wear;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Drawer;

[Proof(Formulas.Wants, Evidence.Simulated, "Thousands of checks of a fleet: counts come as often as their laws say.")]
public class FleetDemandTests
{
    private const double Reading = 0.010;
    private static readonly ClearanceBand Band = new(0.13, 0.19);
    private static readonly double[] Sizes = [.. Enumerable.Range(0, 25).Select(i => Math.Round(1.8 + (0.05 * i), 6))];

    /// <summary>Thousands of checks of the same fleet: true clearances from the forecast, readings of them, and the shims that come to be wanted.</summary>
    [Fact]
    public void Of_Fleet_CountsComeAsOftenAsItsLawsSay()
    {
        var chance = new SeededChance(901);
        SimulatedValve[][] fleet = [.. Enumerable.Range(0, 40).Select(_ => Enumerable.Range(0, chance.Whole(1, 4)).Select(_ => SimulatedValve.Draw(chance)).ToArray())];
        FleetDemand demand = FleetDemand.Of(fleet.Select(e => (IReadOnlyList<ThicknessWant>)[.. e.Select(v => v.Want)]), Sizes);
        const int times = 6000;
        var counts = Sizes.ToDictionary(s => s, _ => new int[times]);
        double unserved = 0;
        for (int t = 0; t < times; t++)
        {
            foreach (SimulatedValve valve in fleet.SelectMany(e => e))
            {
                if (valve.Check(chance) is not { } thickness)
                {
                    continue;
                }

                double size = Sizes.MinBy(s => Math.Abs(s - thickness));
                if (Math.Abs(size - thickness) <= valve.Want.Tolerance)
                {
                    counts[size][t]++;
                }
                else
                {
                    unserved++;
                }
            }
        }

        Assert.InRange(demand.Wanted, 20, 60);
        Assert.Equal(demand.Unserved, unserved / times, 3.5 * Math.Sqrt(demand.Unserved / times));
        int compared = 0;
        foreach (SizeDemand size in demand.Sizes)
        {
            foreach ((int count, double law) in size.Wanted.Chances.Index().Where(c => c.Item > 0.005))
            {
                double seen = counts[size.Size].Count(c => c == count) / (double)times;
                Assert.Equal(law, seen, 3.5 * Math.Sqrt(law * (1 - law) / times));
                compared++;
            }
        }

        Assert.True(compared > 60);
    }

    [Fact]
    public void Of_SizesThatReachNoFurther_SaysHowManyAreTooThinAndTooThick()
    {
        ThicknessWant[] wants = [new(1.70, 0.01, 0.03), new(2.50, 0.01, 0.03), new(3.20, 0.01, 0.03, chance: 0.5), new(2.10, 0.01, 0.03)];
        FleetDemand demand = FleetDemand.Of([wants], [2.0, 2.1, 2.5, 3.0]);
        Assert.Equal(3.5, demand.Wanted, 1e-9);
        Assert.Equal(1, demand.Thinner, 1e-9);
        Assert.Equal(0.5, demand.Thicker, 1e-9);
        Assert.Equal([2.1, 2.5], demand.Sizes.Where(s => s.Wanted.Mean > 0.01).Select(s => s.Size));
        Assert.Equal(1.5 + (2 * 2 * StandardNormal.Cdf(-3)), demand.Unserved, 1e-6);
    }

    /// <summary>The thinnest size serves down to its tolerance, the thickest up to it; only what lies beyond is too thin or too thick.</summary>
    [Fact]
    public void Of_WantsNearTheEnds_AreTooThinOrThickOnlyBeyondTheTolerance()
    {
        FleetDemand demand = FleetDemand.Of([[new(1.98, 0.01, 0.03)], [new(3.05, 0.01, 0.03)]], [2.0, 3.0]);
        Assert.Equal(StandardNormal.Cdf(-1), demand.Thinner, 1e-9);
        Assert.Equal(StandardNormal.Cdf(2), demand.Thicker, 1e-9);
        Assert.Equal(demand.Unserved, demand.Thinner + demand.Thicker, 1e-6);
    }

    [Fact]
    public void Of_NoSizesOrNoEngines_WantsWithoutSizes()
    {
        Assert.Equal((0, 1), ((double)FleetDemand.Of([[new(2.5, 0.01, 0.03)]], []).Sizes.Count, FleetDemand.Of([[new(2.5, 0.01, 0.03)]], []).Unserved));
        Assert.Equal(0, FleetDemand.Of([], Sizes).Wanted);
        Assert.Throws<ArgumentException>(() => FleetDemand.Of([], [2.0, 2.0]));
    }

    /// <summary>A valve that surely wants one size, its shim blurred: rounding once made that a little more than sure, and the law refused it.</summary>
    [Fact]
    public void Of_ValvesThatAreSure_AreCountedOnce()
    {
        ThicknessWant[] wants = [.. Enumerable.Range(1, 60).Select(i => new ThicknessWant(2.5 + (0.0001 * i), 0.0001, 0.05, kept: (2.7, 2.8), blur: 0.00005 * i))];
        FleetDemand demand = FleetDemand.Of([wants], Sizes);
        Assert.Equal(60, Assert.Single(demand.Sizes).Wanted.Mean, 1e-6);
    }

    /// <summary>A thousand engines of four valves: the laws stay as long as what can happen, not as long as the fleet.</summary>
    [Fact]
    public void Of_ThousandEngines_HasLawsThatAreOne()
    {
        var chance = new SeededChance(902);
        FleetDemand demand = FleetDemand.Of(Enumerable.Range(0, 1000).Select(_ => (IReadOnlyList<ThicknessWant>)[.. Enumerable.Range(0, 4).Select(_ => SimulatedValve.Draw(chance).Want)]), Sizes);
        Assert.All(demand.Sizes, s => Assert.Equal(1, s.Wanted.Chances.Sum(), 1e-10));
        Assert.All(demand.Sizes, s => Assert.True(s.Wanted.Chances.Count < s.Wanted.Mean + 20 + (12 * Math.Sqrt(s.Wanted.Variance))));
    }

    private sealed record SimulatedValve(WearState State, double Ratio, double Shim, double ShimError, double ChangeBelow)
    {
        public ThicknessWant Want { get; } = CheckWant.Of(State, Band, new Leverage(Ratio), Shim, ShimError, ChangeBelow, Reading);

        public static SimulatedValve Draw(SeededChance chance) => new(
            new(chance.Uniform(0.10, 0.20), 0, Squares.Of(chance.Uniform(0.008, 0.03)), 0, 0),
            chance.Pick(1.0, 1.0, 1.4), chance.Uniform(2.0, 2.9), chance.Pick(0.0028, 0.008, 0.0117), chance.Pick(0.5, 0.75));

        /// <summary>The thickness that turns out to be wanted; null where the shim stays. By Bayes's rule, step by step.</summary>
        public double? Check(SeededChance chance)
        {
            double clearance = chance.Normal(State.Clearance, State.ClearanceSpread);
            double read = chance.Normal(clearance, Reading);
            double precision = (1 / State.ClearanceVariance) + (1 / (Reading * Reading));
            double mean = ((State.Clearance / State.ClearanceVariance) + (read / (Reading * Reading))) / precision;
            double sd = 1 / Math.Sqrt(precision);
            bool stays = StandardNormal.Cdf((Band.High - mean) / sd) - StandardNormal.Cdf((Band.Low - mean) / sd) >= ChangeBelow;
            return stays ? null : chance.Normal(Shim, ShimError) + ((mean - Band.Middle) / Ratio);
        }
    }
}
