using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

[Proof(Formulas.Pool, Evidence.Computed, "The greatest of a fine scan.")]
public class PooledRatesTests
{
    private static readonly UsualWear Card = new(30);

    [Fact]
    [Long]
    public void Fit_RandomEvidence_IsTheGreatestOfAFineScan()
    {
        var chance = new SeededChance(111);
        for (int run = 0; run < 100; run++)
        {
            RateEvidence[] evidence = [.. Enumerable.Range(0, chance.Whole(2, 20)).Select(_ => new RateEvidence(chance.Normal(1, 0.5), chance.Uniform(0.1, 1)))];
            RateDistribution law = PooledRates.Fit(evidence);
            double found = PooledRates.LogLikelihood(evidence, law.StandardDeviation * law.StandardDeviation);
            double scanned = Enumerable.Range(0, 4000).Max(k => PooledRates.LogLikelihood(evidence, k * k * 1e-6));
            Assert.True(found >= scanned - 1e-9, $"{found} {scanned}");
        }
    }

    [Fact]
    public void Fit_ValvesThatAgree_HaveNoSpread()
    {
        RateDistribution law = PooledRates.Fit([new(1, 0.1), new(1.01, 0.1), new(0.99, 0.2)]);
        Assert.Equal(0, law.StandardDeviation);
        Assert.Equal(((1 * 100) + (1.01 * 100) + (0.99 * 25)) / 225, law.Mean, 1e-12);
    }

    [Fact]
    public void Fit_OtherUnits_ScalesWithThem()
    {
        RateEvidence[] evidence = [new(1, 0.1), new(1.5, 0.1), new(0.7, 0.2), new(2, 0.3)];
        RateDistribution law = PooledRates.Fit(evidence);
        RateDistribution scaled = PooledRates.Fit([.. evidence.Select(e => new RateEvidence(e.Rate / 5000, e.Uncertainty / 5000))]);
        Assert.Equal(law.Mean / 5000, scaled.Mean, 1e-12);
        Assert.Equal(law.StandardDeviation / 5000, scaled.StandardDeviation, 1e-10);
    }

    [Fact]
    public void Evidence_NormalChecks_IsWhatTheChecksSayWithoutThePrior()
    {
        // Two priors, one posterior evidence.
        RateEvidence Under(UsualWear wear)
        {
            WearState start = WearState.At(0.16, 1e-4, wear.RateOf(ValveSide.Intake));
            WearState now = WearFilter.Follow([start], [Kept.Check(0, Made.Value(0.16)), Kept.Check(30, Made.Value(0.13)), Kept.Check(60, Made.Value(0.12))], wear, strayWeight: 0).Now[0];
            return RateEvidence.Of(now, wear.RateOf(ValveSide.Intake))!.Value;
        }

        RateEvidence one = Under(Card);
        RateEvidence other = Under(new UsualWear(30, 0.05, 0.01));
        Assert.Equal(one.Rate * 30, other.Rate * 30, 1e-8);
        Assert.Equal(one.Uncertainty * 30, other.Uncertainty * 30, 1e-8);
    }

    [Theory]
    [InlineData(ValveSide.Intake, 0.01)]
    [InlineData(ValveSide.Exhaust, 0.03)]
    public void EvidenceOf_SidesThatWearDifferently_IsThatOfTheSide(ValveSide side, double loss)
    {
        Engine engine = Made.Engine(Made.Valve(), Made.Valve("E1", ValveSide.Exhaust));
        WearCheck[] checks =
        [
            .. Enumerable.Range(0, 4).Select(k => new WearCheck(
                30 * k, new EngineCheck(engine, [Made.Value(0.18 - (0.01 * k), 0.002), Made.Value(0.18 - (0.03 * k), 0.002)]))),
        ];
        Assert.Equal(loss, 30 * Assert.Single(PooledRates.EvidenceOf(checks, side, Card)).Rate, 0.003);
    }

    [Fact]
    public void Evidence_NothingSaid_IsNone() =>
        Assert.Null(RateEvidence.Of(WearState.At(0.16, 1e-4, Card.RateOf(ValveSide.Intake)), Card.RateOf(ValveSide.Intake)));

    [Fact]
    public void Of_TooFewEnginesOrIntervals_IsNone()
    {
        var chance = new SeededChance(112);
        IReadOnlyList<WearCheck>[] fleet = [.. Enumerable.Range(0, 3).Select(_ => Checks(chance, Card, 3))];
        Assert.NotNull(PooledRates.Of(fleet, ValveSide.Intake, Card));
        Assert.Null(PooledRates.Of(fleet.Take(2), ValveSide.Intake, Card));
        Assert.Null(PooledRates.Of([.. fleet.Take(2), Checks(chance, Card, 2)], ValveSide.Intake, Card));
        Assert.Null(PooledRates.Of([.. fleet.Take(2), [fleet[2][0], fleet[2][1], fleet[2][1]]], ValveSide.Intake, Card));
    }

    /// <summary>Held against the rates that were drawn: what a fleet of 60 has by chance is no error of the estimate.</summary>
    [Fact]
    [Long]
    public void Of_FleetThatWearsOtherwiseThanItsCard_FindsHow()
    {
        var chance = new SeededChance(113);
        UsualWear truth = new UsualWear(30, 0.05, 0.01).With(ValveSide.Exhaust, new RateDistribution(0.01 / 30, 0.01 / 30));
        SimulatedWear[] engines = [.. Enumerable.Range(0, 60).Select(_ => Checked(chance, truth, 5, 10))];
        IReadOnlyList<WearCheck>[] fleet = [.. engines.Select(e => e.Checks)];
        foreach (ValveSide side in Enum.GetValues<ValveSide>())
        {
            double drawn = engines.SelectMany(e => e.Rates.Where((_, v) => e.Engine.Valves[v].Side == side)).Average();
            RateDistribution found = PooledRates.Of(fleet, side, Card)!;
            Assert.Equal(30 * drawn, 30 * found.Mean, 0.006);
            Assert.Equal(0.01, 30 * found.StandardDeviation, 0.008);
        }
    }

    private static List<WearCheck> Checks(SeededChance chance, UsualWear wear, int count) => Checked(chance, wear, count, 20).Checks;

    private static SimulatedWear Checked(SeededChance chance, UsualWear wear, int count, double apart)
    {
        var engine = new SimulatedWear(chance, wear);
        for (int k = 0; k < count; k++)
        {
            engine.Check(k == 0 ? 0 : apart);
        }

        return engine;
    }
}
