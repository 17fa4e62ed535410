using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Wear;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

[Proof(Formulas.Passage, Evidence.Computed, "The average over clearance and rate by a slow sum.")]
public class PassageRiskTests(ITestOutputHelper output)
{
    private const double Interval = 30;
    private const double Diffusion = 0.005 * 0.005 / Interval;

    [Fact]
    [Long]
    public void Chance_RandomStates_AgreesWithASlowSum()
    {
        var chance = new SeededChance(61);
        double worst = 0;
        for (int i = 0; i < 150; i++)
        {
            WearState state = RandomState(chance);
            var band = new ClearanceBand(0.12, 0.12 + chance.Uniform(0.02, 0.2));
            double time = Interval * Math.Pow(10, chance.Uniform(-2.5, 0.7));
            double fast = PassageRisk.Chance(state, band, Diffusion, time);
            worst = Math.Max(worst, Math.Abs(fast - SlowRisk(state, band, time)));
        }

        output.WriteLine($"worst difference {worst:e2}");
        Assert.InRange(worst, 0, 0.0001);
    }

    [Fact]
    public void Chance_NoTime_IsThatOfBeingOutside()
    {
        var state = new WearState(0.13, 0.001, 1e-4, 0, 1e-7);
        Assert.Equal(1 - StandardNormal.Between(-1, 5), PassageRisk.Chance(state, Made.Band, Diffusion, 0), 1e-12);
    }

    [Fact]
    public void Chance_MoreTime_IsNeverLess()
    {
        var chance = new SeededChance(62);
        for (int i = 0; i < 30; i++)
        {
            WearState state = RandomState(chance);
            double[] chances = [.. Enumerable.Range(0, 60).Select(k => PassageRisk.Chance(state, Made.Band, Diffusion, k * Interval / 30))];
            Assert.All(chances.Zip(chances.Skip(1)), pair => Assert.True(pair.Second >= pair.First - 1e-4));
        }
    }

    [Fact]
    public void Chance_FarOutside_IsCertain() =>
        Assert.Equal(1, PassageRisk.Chance(new WearState(-5000, 1, 1e6, -10, 1), new ClearanceBand(2, 2.01), Diffusion, 30), 1e-3);

    [Fact]
    public void Chance_GainingValve_LeavesAbove()
    {
        var state = new WearState(0.17, -0.001, 1e-8, 0, 1e-14);
        Assert.Equal(
            SlowPassage.Chance(0.01, 0.001, Diffusion, 10), PassageRisk.Chance(state, Made.Band, Diffusion, 10), 1e-3);
    }

    /// <summary>At the mean of its rate this valve would stay: it is the rates it may have that carry it out.</summary>
    [Fact]
    public void Chance_RateHardlyKnown_CountsWhatItMayBe()
    {
        var state = new WearState(0.15, 0.0005, 1e-6, 0, 0.001 * 0.001);
        double chance = PassageRisk.Chance(state, Made.Band, Diffusion, Interval);
        Assert.InRange(chance, 0.3, 0.5);
        Assert.Equal(SlowRisk(state, Made.Band, Interval), chance, 0.0005);
    }

    /// <summary>Only what lies near enough to a limit is looked at: as far as fast wear and a rate that is hardly known can carry it.</summary>
    [Theory]
    [InlineData(0.002, 1e-5)]
    [InlineData(-0.002, 1e-5)]
    [InlineData(0.0001, 0.0004)]
    public void Chance_BandWiderThanAnythingReaches_CountsAllThatGetsToALimit(double rate, double spread)
    {
        var band = new ClearanceBand(0.1, 0.3);
        var state = new WearState(0.2, rate, 0.05 * 0.05, 0, spread * spread);
        Assert.Equal(SlowRisk(state, band, 20), PassageRisk.Chance(state, band, Diffusion, 20), 0.0001);
    }

    /// <summary>Sharper than the sum over both: over the rates alone, clearances at the limits and spreads from nothing to more than can be.</summary>
    [Fact]
    public void LeavesFrom_RandomRates_AgreesWithASumOverTheRates()
    {
        var chance = new SeededChance(63);
        double worst = 0;
        for (int i = 0; i < 400; i++)
        {
            var band = new ClearanceBand(0.12, 0.12 + chance.Uniform(0.02, 0.2));
            double time = Interval * Math.Pow(10, chance.Uniform(-2.5, 0.7));
            var risk = new PassageRisk(band, Diffusion, time);
            double clearance = band.Low + (band.Width * Math.Pow(chance.Uniform(0, 1), 2));
            clearance = chance.Uniform(0, 1) < 0.5 ? clearance : band.Low + band.High - clearance;
            (double mean, double spread) = (chance.Uniform(-0.002, 0.003), Math.Pow(10, chance.Uniform(-6, -2.5)));
            worst = Math.Max(worst, Math.Abs(OverRates(risk, clearance, mean, spread) - risk.LeavesFrom(clearance, mean, spread)));
        }

        output.WriteLine($"worst difference {worst:e2}");
        Assert.InRange(worst, 0, 1e-5);
    }

    private static double OverRates(PassageRisk risk, double clearance, double mean, double spread)
    {
        const int Cells = 4000;
        return Piece(Math.Max(0, mean - (8 * spread)), mean + (8 * spread)) + Piece(mean - (8 * spread), Math.Min(0, mean + (8 * spread)));

        double Piece(double low, double high) => high <= low ? 0 : (high - low) / Cells / spread * Enumerable.Range(0, Cells).Sum(i =>
        {
            double rate = low + ((i + 0.5) * (high - low) / Cells);
            return StandardNormal.Density((rate - mean) / spread) * risk.ExitChance(clearance, rate);
        });
    }

    private static WearState RandomState(SeededChance chance)
    {
        double sd = Math.Pow(10, chance.Uniform(-3, -1.3));
        double rateSd = Math.Pow(10, chance.Uniform(-5, -3));
        double correlation = chance.Uniform(-0.9, 0.9);
        return new WearState(
            chance.Uniform(0.1, 0.2), chance.Uniform(-0.001, 0.002), sd * sd, correlation * sd * rateSd, rateSd * rateSd);
    }

    /// <summary>Midpoints over both, with the jumps between cells.</summary>
    private static double SlowRisk(WearState state, ClearanceBand band, double time)
    {
        const int Cells = 600;
        double root = Math.Sqrt(Diffusion * time);
        double sd = state.ClearanceSpread;
        double low = Math.Max(band.Low, state.Clearance - (7 * sd));
        double high = Math.Min(band.High, state.Clearance + (7 * sd));
        double sum = 1 - StandardNormal.Between((band.Low - state.Clearance) / sd, (band.High - state.Clearance) / sd);
        if (high <= low)
        {
            return sum;
        }

        double rateSd = state.RateSpreadGivenClearance;
        for (int i = 0; i < Cells; i++)
        {
            double c = low + ((i + 0.5) * (high - low) / Cells);
            double mean = state.Rate + (state.RatePerClearance * (c - state.Clearance));
            double inner = 0, total = 0;
            for (int j = 0; j < Cells; j++)
            {
                double rate = mean + (rateSd * (-7 + (14 * (j + 0.5) / Cells)));
                double weight = StandardNormal.Density((rate - mean) / rateSd);
                total += weight;
                inner += weight * (rate >= 0
                    ? FirstPassage.ChanceFromTable(c - band.Low, rate, time, root)
                    : FirstPassage.ChanceFromTable(band.High - c, -rate, time, root));
            }

            sum += (high - low) / Cells * StandardNormal.Density((c - state.Clearance) / sd) / sd * inner / total;
        }

        return sum;
    }
}
