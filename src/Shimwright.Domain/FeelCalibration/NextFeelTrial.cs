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
    private static readonly double[] UsualBlades = [0.10, 0.15, 0.20];

    /// <summary>
    /// The best few trials, one after the other, each counted as made before the next is chosen. Only the play matters to the
    /// information; the blade is the one used least so far, so that what one blade is off its size is not taken for the fingers.
    /// </summary>
    internal static IReadOnlyList<NextFeelTrial> Suggest(
        IReadOnlyList<FeelTrial> made, Vector<double> fingers, FeelLikelihood likelihood, int count, IReadOnlyList<double>? atHand = null)
    {
        Matrix<double> known = Prior();
        foreach (FeelTrial trial in made)
        {
            known += likelihood.Expected(trial.Play, trial.Trial.Leaves, fingers);
        }

        List<NextFeelTrial> best = [];
        while (best.Count < count)
        {
            double blade = UsedLeast([.. made.Select(t => t.Trial.Blade)], [.. best.Select(n => n.Blade)], fingers, atHand);
            double before = LogDeterminant(known);
            NextFeelTrial? next = null;
            Matrix<double> gained = known;
            foreach (double gap in Gaps(blade, fingers))
            {
                Matrix<double> information = likelihood.Expected(gap - blade, 1, fingers);
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
    internal static NextFeelTrial For(Feel feel, IReadOnlyList<FeelTrial> made, Vector<double> fingers, IReadOnlyList<double>? atHand = null)
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
        double blade = UsedLeast([.. made.Select(t => t.Trial.Blade)], [], fingers, atHand);
        return new(Math.Max(1, Math.Round((blade + play) / GapStep)) * GapStep, blade, 0);
    }

    /// <summary>
    /// Of the blades that are thick enough for every gap of interest, the one used least; ties go to the thinner one. They are those that
    /// trials name, and where the set is known those of it that are nearest to the usual ones: so the blades take turns from the first trial on.
    /// </summary>
    private static double UsedLeast(double[] made, double[] suggested, Vector<double> fingers, IReadOnlyList<double>? atHand)
    {
        IEnumerable<double> ofTheSet = atHand is { Count: > 0 } ? UsualBlades.Select(u => atHand.MinBy(b => Math.Abs(b - u))) : [];
        double[] own = [.. made.Concat(ofTheSet).Select(b => Math.Round(b, 6)).Distinct()];
        double[] thick = [.. own.Where(b => b + fingers[0] - Reach >= GapStep)];
        double[] all = thick.Length > 0 ? thick : own.Length > 0 ? [own.Max()] : UsualBlades;
        return all.OrderBy(b => made.Concat(suggested).Count(u => Math.Abs(u - b) < 1e-6)).ThenBy(b => b).First();
    }

    /// <summary>The gaps that can be set about a blade.</summary>
    private static IEnumerable<double> Gaps(double blade, Vector<double> fingers)
    {
        int first = Math.Max(1, (int)Math.Ceiling((blade + fingers[0] - Reach) / GapStep));
        int last = (int)Math.Floor((blade + fingers[2] + Reach) / GapStep);
        for (int k = first; k <= Math.Max(first, last); k++)
        {
            yield return Math.Round(k * GapStep, 6);
        }
    }

    private static Matrix<double> Prior() => Matrix<double>.Build.DenseOfDiagonalArray(
    [
        .. Enumerable.Repeat(1 / (ThresholdDoubt * ThresholdDoubt), FeelLikelihood.Omega), 1 / (LogSpreadDoubt * LogSpreadDoubt),
    ]);

    private static double LogDeterminant(Matrix<double> information) => Math.Log(information.Determinant());
}
