using Shimwright.Domain.Readings;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

/// <summary>Do the claims of the filter come true? Engines that wear as the model has it, from fixed seeds.</summary>
[Proof(Formulas.Filter, Evidence.Simulated, "Engines that wear as the model has it: rates lie in their intervals, the risk of check-by comes true.")]
public class WearCoverageTests(ITestOutputHelper output)
{
    private const double Interval = 30;
    private static readonly UsualWear Wear = new(Interval);

    [Fact]
    [Long]
    public void Follow_SimulatedEngines_RatesLieInTheirIntervalsAsOftenAsClaimed()
    {
        // No valve goes astray here, so the filter is not told to expect it.
        (Tally rate, Tally below, _) = Cover(20261, strayWeight: 0);
        rate.AssertHolds(output, 2000);
        below.AssertHolds(output, 2000);
    }

    [Fact]
    [Long]
    public void Follow_StraysExpectedWhereThereAreNone_IntervalsAreWideEnough()
    {
        double covered = Cover(20261, HistoryPrior.UsualStrayWeight).Covered;
        output.WriteLine($"{covered:f4} of the rates inside their 95 % intervals");
        Assert.InRange(covered, 0.95, 0.98);
    }

    private static (Tally Rate, Tally Below, double Covered) Cover(int seed, double strayWeight)
    {
        var chance = new SeededChance(seed);
        var rate = new Tally("rate inside its 95 % interval");
        var below = new Tally("rate below it");
        int inside = 0;
        for (int i = 0; i < 500; i++)
        {
            var engine = new SimulatedWear(chance, Wear);
            engine.Check(0);
            for (int k = 0; k < 4; k++)
            {
                engine.Check(chance.Uniform(0.4, 1) * Interval);
            }

            IReadOnlyList<WearState> now = WearFilter.Follow(engine.Checks, Wear, strayWeight: strayWeight).Now;
            for (int v = 0; v < now.Count; v++)
            {
                double z = (engine.Rates[v] - now[v].Rate) / now[v].RateSpread;
                inside += Math.Abs(z) <= 1.96 ? 1 : 0;
                rate.Add(0.95, Math.Abs(z) <= 1.96);
                below.Add(0.025, z < -1.96);
            }
        }

        return (rate, below, inside / (double)rate.Count);
    }

    /// <summary>
    /// Engines at whose first check a blade entered everywhere: where none did, what is known is skew with a long tail, and the filter goes
    /// on with its mean and variance, so that a risk between 0.4 and 0.7 was then found true in 63 of 83 engines.
    /// </summary>
    [Fact]
    [Long]
    public void CheckBy_SimulatedEngines_ItsRiskComesTrue()
    {
        int cases = Effort.Cases(600, 20_000);
        var chance = new SeededChance(20262);
        var all = new Tally("a valve outside by then", 0.10001, 0.4, 0.7);
        for (int i = 0; i < cases; i++)
        {
            var engine = new SimulatedWear(chance, Wear);
            engine.Check(0);
            if (engine.Checks[0].Check.Readings.Any(r => r.Trials.All(t => t.Feel == Feel.No)))
            {
                continue;
            }

            engine.Refit();
            engine.Check(chance.Uniform(0.2, 1) * Interval);
            if (i % 3 > 0)
            {
                engine.Refit();
            }

            EngineForecast forecast = EngineForecast.Of(WearFilter.Follow(engine.Checks, Wear, strayWeight: 0));
            double claim = forecast.RiskAt(forecast.CheckBy);
            Assert.True(claim <= 0.1 + 1e-6 || forecast.CheckBy == forecast.Clock);
            all.Add(claim, engine.LeavesWithin(Math.Max(1e-9, forecast.CheckBy - forecast.Clock)));
        }

        all.AssertHolds(output, cases / 120);
    }
}
