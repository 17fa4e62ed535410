using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Tests.Wear;
using Shimwright.Domain.Wear;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>The chances of a plan with a horizon against plain double and triple sums.</summary>
[Proof(Formulas.Promise, Evidence.Computed, "Chances of staying in band by double and triple sums.")]
public class HorizonTests(ITestOutputHelper output)
{
    private const double Interval = 30;
    private static readonly UsualWear Wear = new(Interval);

    [Fact]
    [Long]
    public void Plan_KeptAndFittedValves_HaveTheChanceOfStaying()
    {
        var chance = new SeededChance(91);
        double worst = 0;
        for (int run = 0; run < 12; run++)
        {
            bool hasPast = run % 2 == 0;
            double time = Interval * Math.Pow(10, chance.Uniform(-1.5, 0.6));
            EngineCheck check = Made.Check(Made.Value(chance.Uniform(0.12, 0.17), 0.012));
            WearHorizon horizon = WearHorizon.Usual(check.Engine, Wear, time);
            if (hasPast)
            {
                double sd = chance.Uniform(0.005, 0.02);
                double rateSd = chance.Uniform(0.1, 1) * 0.02 / Interval;
                var state = new WearState(0.14, 0.02 / Interval, sd * sd, chance.Uniform(-0.9, 0.5) * sd * rateSd, rateSd * rateSd);
                check = check.After(new HistoryPrior([state.Expected()]));
                horizon = WearHorizon.Known([state], Wear, time);
            }

            var request = new PlanRequest(
                check, [Made.Measured(2.5)], new Stock([new(Made.Measured(2.48), 1), new(Made.Marked(2.47), 1)], []),
                rules: new PlanRules(0, 0), horizon: horizon);
            EngineEstimate estimate = Made.EstimateFor(request);
            var options = new OptionTable(request, estimate);
            ClearanceDistribution valve = estimate.Valves[0];
            worst = Math.Max(worst, Math.Abs(options.Kept[0].Chance - SlowKept(valve, horizon)));
            foreach (ValveOption option in options.Shared[0].Select(s => s.Option))
            {
                worst = Math.Max(worst, Math.Abs(option.Chance - SlowFitted(valve, horizon, option.Change.Shift, option.Change.Uncertainty)));
            }
        }

        output.WriteLine($"worst difference {worst:e2}");
        Assert.InRange(worst, 0, 0.001);
    }

    [Fact]
    public void Plan_Screw_HasTheChanceOfStayingWhereItIsSet()
    {
        Engine screws = Made.Engine(new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Valve());
        var check = new EngineCheck(screws, [Made.Value(0.05)]);
        var horizon = WearHorizon.Usual(screws, Wear, 20);
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [], horizon: horizon)).Chosen;
        double error = PlanRules.Default.Seating.ScrewUncertainty;
        double slow = 0;
        for (double c = 0.12005; c < 0.18; c += 0.0001)
        {
            slow += 0.0001 * StandardNormal.Density((c - 0.15) / error) / error * SlowStays(c, horizon.Rates[0].Mean, horizon);
        }

        Assert.Equal(slow, plan.Valves[0].Chance!.Value, 1e-3);
    }

    /// <summary>What the gap was says something about the rate, though nothing about the gap that is set.</summary>
    [Theory]
    [InlineData(0.7)]
    [InlineData(-0.7)]
    public void Plan_ScrewWithAPast_WearsAtTheRateThatTheGapBeforeTells(double correlation)
    {
        Engine screws = Made.Engine(new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Valve());
        const double sd = 0.02, rateSd = 0.02 / Interval;
        var state = new WearState(0.11, 0.03 / Interval, sd * sd, correlation * sd * rateSd, rateSd * rateSd);
        EngineCheck check = new EngineCheck(screws, [Made.Value(0.06, 0.008)]).After(new HistoryPrior([state.Expected()]));
        WearHorizon horizon = WearHorizon.Known([state], Wear, Interval / 2);
        PlannedValve valve = Planner.Plan(new PlanRequest(check, [], horizon: horizon)).Chosen.Valves[0];

        // The rate by its regression on the clearance, the doubt of which it takes along.
        ClearanceDistribution before = EngineEstimate.From(check).Valves[0];
        double slope = correlation * rateSd / sd;
        double rate = state.Rate + (slope * (before.Mean - state.Clearance));
        double spread = Math.Sqrt((rateSd * rateSd * (1 - (correlation * correlation))) + Math.Pow(slope * before.StandardDeviation, 2));
        double error = PlanRules.Default.Seating.ScrewUncertainty;
        var whenSet = new WearHorizon(horizon.Time, horizon.Diffusion, [new RateGivenClearance(rate, 0, 0, spread)]);
        double slow = 0;
        for (double c = 0.12005; c < 0.18; c += 0.0001)
        {
            slow += 0.0001 * StandardNormal.Density((c - 0.15) / error) / error * SlowStays(c, rate, whenSet);
        }

        Assert.Equal(slow, valve.Chance!.Value, 1e-3);
    }

    /// <summary>A valve that is left alone wears at the rate that goes with the gap at which it was found.</summary>
    [Theory]
    [InlineData(0.7)]
    [InlineData(-0.7)]
    public void Plan_KeptValveWithAPast_WearsAtTheRateThatItsGapTells(double correlation)
    {
        const double sd = 0.02, rateSd = 0.02 / Interval;
        var state = new WearState(0.16, 0.02 / Interval, sd * sd, correlation * sd * rateSd, rateSd * rateSd);
        EngineCheck check = Made.Check(Made.Value(0.14, 0.006)).After(new HistoryPrior([state.Expected()]));
        WearHorizon horizon = WearHorizon.Known([state], Wear, Interval / 2);
        var request = new PlanRequest(check, [Made.Measured(2.5)], horizon: horizon);
        EngineEstimate estimate = Made.EstimateFor(request);
        Assert.Equal(SlowKept(estimate.Valves[0], horizon), new OptionTable(request, estimate).Kept[0].Chance, 1e-3);
    }

    /// <summary>With a past the valves are independent: each has the chance that it would have alone, whatever the others read.</summary>
    [Fact]
    public void Plan_ValvesWithAPast_HaveTheChancesThatEachHasAlone()
    {
        const double sd = 0.02, rateSd = 0.02 / Interval;
        var state = new WearState(0.14, 0.02 / Interval, sd * sd, -0.8 * sd * rateSd, rateSd * rateSd);
        double[] read = [0.09, 0.15, 0.11];
        PlanRequest Request(params double[] values) => new(
            Made.Check([.. values.Select(v => Made.Value(v, 0.006))]).After(new HistoryPrior(values.Select(_ => state.Expected()))),
            [.. values.Select(_ => Made.Measured(2.5))],
            new Stock([], [new PurchasableSize(Made.Measured(2.45), 0)]), rules: new PlanRules(0.4, 0.05),
            horizon: WearHorizon.Known(values.Select(_ => state), Wear, Interval / 4));
        ShimPlan together = Planner.Plan(Request(read)).Chosen;
        Assert.All(read.Zip(together.Valves), pair =>
        {
            PlannedValve alone = Planner.Plan(Request(pair.First)).Chosen.Valves[0];
            Assert.Equal((alone.Action, alone.To), (pair.Second.Action, pair.Second.To));
            if (pair.Second.IsSeatedAnew)
            {
                // Alone its cover stays shut.
                Assert.InRange(pair.Second.Chance!.Value, alone.Chance!.Value - 0.01, alone.Chance.Value);
                return;
            }

            Assert.Equal(alone.Chance!.Value, pair.Second.Chance!.Value, 1e-4);
        });
        Assert.Equal([ValveAction.Fit, ValveAction.Keep, ValveAction.Fit], together.Valves.Select(v => v.Action));
        Assert.Equal(together.Valves.Aggregate(1.0, (p, v) => p * v.Chance!.Value), together.ChanceAll, 1e-9);
    }

    [Fact]
    public void Plan_ShortestHorizon_IsThePlanWithoutOne()
    {
        EngineCheck check = Made.Check(Made.Value(0.14), Made.Value(0.11));
        Stock stock = new([new(Made.Measured(2.45), 1)], []);
        Thickness[] fitted = [Made.Measured(2.5), Made.Measured(2.5)];
        ShimPlan without = Planner.Plan(new PlanRequest(check, fitted, stock)).Chosen;
        ShimPlan with = Planner.Plan(new PlanRequest(check, fitted, stock, horizon: WearHorizon.Usual(check.Engine, Wear, 1e-6))).Chosen;
        Assert.All(without.Valves.Zip(with.Valves), pair => Assert.Equal(pair.First.Chance!.Value, pair.Second.Chance!.Value, 1e-4));
        Assert.Equal(without.ChanceAll, with.ChanceAll, 1e-4);
    }

    [Fact]
    public void Plan_KeepFloor_LooksAtTheChanceOfBeingInBandNow()
    {
        EngineCheck check = Made.Check(Made.Value(0.13, 0.003));
        WearHorizon horizon = WearHorizon.Usual(check.Engine, Wear, 10 * Interval);
        PlannedValve valve = Planner.Plan(new PlanRequest(check, [Made.Measured(2.5)], horizon: horizon)).Chosen.Valves[0];
        Assert.False(valve.IsStranded);
        Assert.Equal(ValveAction.Keep, valve.Action);
        Assert.InRange(valve.Chance!.Value, 0, 0.2);
        Assert.InRange(valve.Estimate.InBand, 0.9, 1);
    }

    [Fact]
    public void Plan_SharedCauseAndHorizon_AreCountedTogether()
    {
        EngineCheck check = Made.Check(Made.Felt((0.13, Feel.Firm)), Made.Felt((0.13, Feel.Firm)));
        WearHorizon horizon = WearHorizon.Usual(check.Engine, Wear, Interval / 3);
        ShimPlan plan = Planner.Plan(new PlanRequest(
            check, [Made.Measured(2.5), Made.Measured(2.5)], rules: new PlanRules(0, 0.05), horizon: horizon)).Chosen;
        double independent = plan.Valves.Aggregate(1.0, (p, v) => p * v.Chance!.Value);
        Assert.InRange(plan.ChanceAll, independent - 1e-6, Math.Min(plan.Valves[0].Chance!.Value, plan.Valves[1].Chance!.Value));
    }

    private static double SlowKept(ClearanceDistribution valve, WearHorizon horizon) =>
        Cells(valve).Sum(cell => cell.Clearance is > 0.12 and < 0.18 ? cell.Mass * SlowStays(cell.Clearance, RateAt(horizon, cell.Clearance), horizon) : 0);

    private static double SlowFitted(ClearanceDistribution valve, WearHorizon horizon, double shift, double error)
    {
        double sum = 0;
        foreach ((double clearance, double mass) in Cells(valve).Chunk(10).Select(c => (c.Average(x => x.Clearance), c.Sum(x => x.Mass))))
        {
            for (int k = 0; k < 120 && mass > 1e-6; k++)
            {
                double landed = 0.12 + (0.0005 * (k + 0.5));
                double density = StandardNormal.Density((landed - clearance - shift) / error) / error;
                sum += density < 1e-4 ? 0 : mass * 0.0005 * density * SlowStays(landed, RateAt(horizon, clearance), horizon);
            }
        }

        return sum;
    }

    private static double RateAt(WearHorizon horizon, double clearance) =>
        horizon.Rates[0].Mean + (horizon.Rates[0].Slope * (clearance - horizon.Rates[0].At));

    private static IEnumerable<(double Clearance, double Mass)> Cells(ClearanceDistribution valve)
    {
        for (double c = 0.02; c < 0.28; c += 0.0002)
        {
            yield return (c + 0.0001, valve.Probability(c, c + 0.0002));
        }
    }

    private static double SlowStays(double clearance, double mean, WearHorizon horizon)
    {
        double spread = horizon.Rates[0].StandardDeviation;
        double stays = 0, total = 0;
        for (int k = 0; k < 240; k++)
        {
            double z = -6 + (12 * (k + 0.5) / 240);
            double rate = mean + (spread * z);
            double weight = StandardNormal.Density(z);
            total += weight;
            stays += weight * (1 - (rate >= 0
                ? SlowPassage.Chance(clearance - 0.12, rate, horizon.Diffusion, horizon.Time)
                : SlowPassage.Chance(0.18 - clearance, -rate, horizon.Diffusion, horizon.Time)));
        }

        return stays / total;
    }
}
