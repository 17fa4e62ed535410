using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

[Proof(Formulas.NextBlade, Evidence.Computed, "Every blade at every valve by plain sums.")]
public class NextBladeTests
{
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25];

    [Fact]
    [Long]
    public void Suggest_RandomChecks_IsTheTrialThatTellsMost()
    {
        int suggested = 0;
        for (int seed = 100; seed < 112; seed++)
        {
            EngineCheck check = RandomCheck.Draw(seed);
            EngineEstimate estimate = EngineEstimate.From(check);
            var slow = new SlowPosterior(check);
            NextBlade? next = NextBlade.Suggest(estimate, Blades);
            var all = Candidates(check, slow).ToList();
            Assert.Equal(all.Count > 0, next is not null);
            if (next is null)
            {
                continue;
            }

            suggested++;
            double most = all.Max(c => c.Gain);
            Assert.Equal(most, next.Gain, 1e-4);

            // The one that was named gains the most, as far as the slow sums can tell.
            Assert.True(all.Single(c => c.Valve == next.Valve && c.Blade == next.Blade).Gain > most - 1e-4);
        }

        Assert.InRange(suggested, 5, 12);
    }

    [Fact]
    [Long]
    public void ForEach_RandomChecks_IsTheTrialThatTellsMostAtEachValve()
    {
        int suggested = 0;
        for (int seed = 200; seed < 206; seed++)
        {
            EngineCheck check = RandomCheck.Draw(seed);
            EngineEstimate estimate = EngineEstimate.From(check);
            ILookup<int, double> gains = Candidates(check, new SlowPosterior(check)).ToLookup(c => c.Valve, c => c.Gain);
            IReadOnlyList<NextBlade?> each = NextBlade.ForEach(estimate, Blades);
            Assert.Equal(check.Engine.Valves.Count, each.Count);
            foreach ((int valve, NextBlade? next) in each.Index())
            {
                Assert.Equal(gains.Contains(valve), next is not null);
                Assert.Equal(gains[valve].DefaultIfEmpty().Max(), next?.Gain ?? 0, 1e-4);
                suggested += next?.Valve == valve ? 1 : 0;
            }

            Assert.Equal(NextBlade.Suggest(estimate, Blades), NextBlade.Best(each));
        }

        Assert.True(suggested > 5, $"{suggested} suggestions.");
    }

    [Fact]
    public void Suggest_TwoValvesThatAreAlike_NamesTheEarlier()
    {
        ValveReadings same = Made.Felt((0.10, Feel.Loose));
        NextBlade? next = NextBlade.Suggest(EngineEstimate.From(Made.Check(Made.Value(0.15, 0.002), same, same)), Blades);
        Assert.Equal(1, next!.Valve);
    }

    [Fact]
    public void Suggest_TwoBladesThatTellTheSame_NamesTheThinner()
    {
        // Neither will enter, wherever the valve may be: both tell nothing.
        NextBlade? next = NextBlade.Suggest(EngineEstimate.From(Made.Check(ValveReadings.None)), [1.9, 1.7, 1.8]);
        Assert.Equal(1.7, next!.Blade);
        Assert.Equal(0, next.Gain, 1e-9);
    }

    [Fact]
    public void Suggest_BladeTriedAlready_IsNotNamedAgain()
    {
        EngineEstimate estimate = EngineEstimate.From(Made.Check(ValveReadings.None));
        double best = NextBlade.Suggest(estimate, Blades)!.Blade;
        EngineEstimate after = EngineEstimate.From(Made.Check(Made.Felt((best, Feel.Light))));
        Assert.NotEqual(best, NextBlade.Suggest(after, Blades)?.Blade);
        Assert.Null(NextBlade.Suggest(after, [best]));
    }

    /// <summary>The valve is still open, so that a blade would be named if it had not been tried.</summary>
    [Fact]
    public void Suggest_OpenValve_NamesTheBladeThatWasNotTried()
    {
        EngineEstimate estimate = EngineEstimate.From(Made.Check(Made.Felt((0.10, Feel.Loose))));
        Assert.Null(NextBlade.Suggest(estimate, [0.10]));
        Assert.Equal(0.15, NextBlade.Suggest(estimate, [0.10, 0.15])?.Blade);
    }

    [Fact]
    public void Suggest_NothingUnsettled_NamesNothing() =>
        Assert.Null(NextBlade.Suggest(EngineEstimate.From(Made.Check(Made.Value(0.15, 0.003), Made.Value(0.02, 0.003))), Blades));

    [Fact]
    public void Suggest_NoBlades_NamesNothing() =>
        Assert.Null(NextBlade.Suggest(EngineEstimate.From(Made.Check(ValveReadings.None)), []));

    [Fact]
    public void Suggest_WarmEngine_ThinksOfTheGapAtItsTemperature()
    {
        // The gap is 0.05 wider than at 20 °C, so the telling blades are that much thicker.
        var engine = new Engine("Warm", Made.Bucket, [Made.Valve()], 0.001);
        EngineEstimate warm = EngineEstimate.From(new EngineCheck(engine, [ValveReadings.None], 70));
        EngineEstimate cold = EngineEstimate.From(Made.Check(ValveReadings.None));
        double[] fine = [.. Enumerable.Range(4, 30).Select(k => k * 0.01)];
        Assert.Equal(NextBlade.Suggest(cold, fine)!.Blade + 0.05, NextBlade.Suggest(warm, fine)!.Blade, 1e-9);
    }

    private static IEnumerable<(int Valve, double Blade, double Gain)> Candidates(EngineCheck check, SlowPosterior slow)
    {
        for (int v = 0; v < slow.Valves.Count; v++)
        {
            if (slow.Valves[v].InBand is > 0.10 and < 0.90)
            {
                (double Clearance, double Mass)[] cells = [.. slow.Cells(v)];
                foreach (double blade in Blades.Where(b => check.Readings[v].Trials.All(t => t.Blade != b)))
                {
                    yield return (v, blade, MutualInformation(cells, check, v, blade));
                }
            }
        }
    }

    /// <summary>Σ p(feel, outcome)·ln(p(feel, outcome) / (p(feel)·p(outcome))), outcomes below, in and above the band.</summary>
    private static double MutualInformation((double Clearance, double Mass)[] cells, EngineCheck check, int v, double blade)
    {
        ClearanceBand band = check.Engine.Valves[v].Band;
        double[,] joint = new double[4, 3];
        foreach ((double clearance, double mass) in cells)
        {
            int outcome = clearance < band.Low ? 0 : clearance > band.High ? 2 : 1;
            double play = clearance + check.ShiftAt(v).Millimetres - blade;
            for (int feel = 0; feel < 4; feel++)
            {
                joint[feel, outcome] += mass * SlowLaw.ChanceOf((Feel)feel, play, 1, check.Feel);
            }
        }

        double information = 0;
        for (int feel = 0; feel < 4; feel++)
        {
            for (int outcome = 0; outcome < 3; outcome++)
            {
                double p = joint[feel, outcome];
                double ofFeel = joint[feel, 0] + joint[feel, 1] + joint[feel, 2];
                double ofOutcome = joint[0, outcome] + joint[1, outcome] + joint[2, outcome] + joint[3, outcome];
                information += p > 0 ? p * Math.Log(p / (ofFeel * ofOutcome)) : 0;
            }
        }

        return information;
    }
}
