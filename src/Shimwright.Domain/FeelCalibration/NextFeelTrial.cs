using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>
/// A trial that would say much about the fingers: the one that raises ln det of the information most (D-optimal design:
/// V. V. Fedorov, Theory of Optimal Experiments, 1972; with a prior, K. Chaloner, I. Verdinelli, "Bayesian experimental
/// design: a review", Statistical Science 10 (1995) 273-304; both from memory).
/// </summary>
/// <param name="Gap">The gap to set, mm.</param>
/// <param name="Blade">The blade to try in it, one leaf, mm.</param>
/// <param name="Gain">By how much half of ln det of the information is expected to rise, nats.</param>
public sealed record NextFeelTrial(double Gap, double Blade, double Gain)
{
    /// <summary>Gaps are suggested in steps that gauge blocks and micrometers can be set to, mm.</summary>
    private const double GapStep = 0.005;

    /// <summary>How far from the outer thresholds a trial is considered, mm.</summary>
    private const double Reach = 0.03;

    /// <summary>How far beyond all that was tried a missing outer feel is looked for, mm.</summary>
    private const double Outwards = 0.01;

    private const double Tie = 1e-9;

    /// <summary>What is taken as known before any trial: a default profile, give or take. Common practice, no source.</summary>
    private const double ThresholdDoubt = 0.02, LogSpreadDoubt = 0.7;

    /// <summary>Blades where no trial names one, mm.</summary>
    private static readonly double[] UsualBlades = [0.15];

    /// <summary>The best few trials, one after the other, each counted as made before the next is chosen.</summary>
    internal static IReadOnlyList<NextFeelTrial> Suggest(
        IReadOnlyList<FeelTrial> made, Vector<double> fingers, FeelLikelihood likelihood, int count)
    {
        Matrix<double> known = Prior();
        foreach (FeelTrial trial in made)
        {
            known += likelihood.Expected(trial.Play, trial.Trial.Leaves, fingers);
        }

        (double Gap, double Blade, Matrix<double> Information)[] candidates = [.. Candidates(made, fingers)
            .Select(c => (c.Gap, c.Blade, likelihood.Expected(c.Gap - c.Blade, 1, fingers)))];
        List<NextFeelTrial> best = [];
        while (best.Count < count)
        {
            double before = LogDeterminant(known);
            NextFeelTrial? next = null;
            Matrix<double> gained = known;
            foreach ((double gap, double blade, Matrix<double> information) in candidates)
            {
                double gain = (LogDeterminant(known + information) - before) / 2;
                if (next is null || gain > next.Gain + Tie)
                {
                    (next, gained) = (new NextFeelTrial(gap, blade, gain), information);
                }
            }

            best.Add(next!);
            known += gained;
        }

        return best;
    }

    /// <summary>Where a feel that was never felt may be found: beyond, or between, where its neighbours were felt.</summary>
    internal static NextFeelTrial For(Feel feel, IReadOnlyList<FeelTrial> made, Vector<double> fingers)
    {
        double[] below = [.. made.Where(t => t.Trial.Feel < feel).Select(t => t.Play)];
        double[] above = [.. made.Where(t => t.Trial.Feel > feel).Select(t => t.Play)];
        double play = feel switch
        {
            Feel.No => Math.Min(fingers[0] - (Reach / 2), above.DefaultIfEmpty(0).Min() - Outwards),
            Feel.Loose => Math.Max(fingers[2] + (Reach / 2), below.DefaultIfEmpty(0).Max() + Outwards),
            _ when below.Length > 0 && above.Length > 0 => (below.Max() + above.Min()) / 2,
            _ => (fingers[(int)feel - 1] + fingers[(int)feel]) / 2,
        };
        double blade = UsedMost(made);
        return new(Math.Max(1, Math.Round((blade + play) / GapStep)) * GapStep, blade, 0);
    }

    /// <summary>The blade that was tried most often; ties go to the thinner one.</summary>
    private static double UsedMost(IReadOnlyList<FeelTrial> made) =>
        made.Select(t => t.Trial.Blade).Concat(made.Count == 0 ? UsualBlades : [])
            .GroupBy(b => Math.Round(b, 6)).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;

    /// <summary>Gaps about that blade.</summary>
    private static IEnumerable<(double Gap, double Blade)> Candidates(IReadOnlyList<FeelTrial> made, Vector<double> fingers)
    {
        double blade = UsedMost(made);
        int first = Math.Max(1, (int)Math.Ceiling((blade + fingers[0] - Reach) / GapStep));
        int last = (int)Math.Floor((blade + fingers[2] + Reach) / GapStep);
        for (int k = first; k <= Math.Max(first, last); k++)
        {
            yield return (Math.Round(k * GapStep, 6), blade);
        }
    }

    private static Matrix<double> Prior() => Matrix<double>.Build.DenseOfDiagonalArray(
    [
        .. Enumerable.Repeat(1 / (ThresholdDoubt * ThresholdDoubt), FeelLikelihood.Omega), 1 / (LogSpreadDoubt * LogSpreadDoubt),
    ]);

    private static double LogDeterminant(Matrix<double> information) => Math.Log(information.Determinant());
}
