using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Rechecking;

/// <summary>
/// How unlikely a reading was under its prediction: the chance of a reading that is no likelier than the one made. What the readings
/// of a check may be off by together, and the error that the trials of one blade share, are counted.
/// </summary>
internal static class Surprise
{
    /// <summary>The trials that are counted: the last of them.</summary>
    private const int MostTrials = 5;

    /// <summary>Rounding within which two chances count as equal.</summary>
    private const double Slack = 1e-9;

    /// <summary>Standard deviations of an offset that are counted.</summary>
    private const double Sigmas = 5;

    private static readonly int Feels = Enum.GetValues<Feel>().Length;

    /// <summary>Of a valve at a re-check. A slip explains anything, so that with slips nothing would be a surprise: they are left out.</summary>
    public static double? AtRecheck(ClearanceDistribution predicted, EngineCheck check, int valve)
    {
        double heat = check.ShiftAt(valve).IsKnown ? 0 : CheckOffsets.HeatDoubtPerDegree * Math.Abs(check.Temperature - ThermalShift.Reference);
        return Of(
            predicted, check.Readings[valve], check.ShiftAt(valve), check.Feel.WithoutSlips, Squares.CombinedStandardUncertainty(check.Feel.Doubt, heat));
    }

    /// <summary>Of any reading.</summary>
    /// <param name="predicted">What was expected.</param>
    /// <param name="readings">What was read.</param>
    /// <param name="shift">What the temperature did to the gap.</param>
    /// <param name="feel">The fingers.</param>
    /// <param name="offset">Standard deviation of what all blades may be off by together, mm.</param>
    public static double? Of(ClearanceDistribution predicted, ValveReadings readings, ThermalShift shift, FeelProfile feel, double offset = 0)
    {
        double? ofValue = readings.CombinedValue() is { } value
            ? OfValue(predicted, value.Millimetres - shift.Millimetres, value.Uncertainty)
            : null;
        double? ofTrials = readings.Trials.Count > 0
            ? OfTrials(Gaps.Felt(predicted, shift.Millimetres, offset), [.. readings.Trials.TakeLast(MostTrials)], feel)
            : null;
        return ofValue is { } a && ofTrials is { } b
            ? Math.Min(1, 2 * Math.Min(a, b))
            : ofValue ?? ofTrials;
    }

    private static double OfValue(ClearanceDistribution predicted, double value, double uncertainty)
    {
        double spread = Squares.CombinedStandardUncertainty(predicted.StandardDeviation, uncertainty);
        return 2 * StandardNormal.Cdf(-Math.Abs(value - predicted.Mean) / spread);
    }

    private static double OfTrials(Gaps gaps, BladeTrial[] trials, FeelProfile feel)
    {
        IReadOnlyList<BladeTrial>[] blades = [.. trials.GroupBy(t => (Math.Round(t.Blade, 9), t.Leaves)).Select(g => (IReadOnlyList<BladeTrial>)[.. g])];
        double[] felt = (double[])gaps.Mass.Clone();
        foreach (IReadOnlyList<BladeTrial> blade in blades)
        {
            Multiply(felt, Chances(gaps, blade, feel));
        }

        Outcome[][] outcomes = [.. blades.Select(blade => Outcomes(gaps, blade[0], blade.Count, feel).ToArray())];
        return NoLikelier(gaps.Mass, outcomes, 0, felt.Sum() * (1 + Slack));
    }

    /// <summary>The chance of all outcomes at the blades from number <paramref name="next"/> on that are no likelier than the limit.</summary>
    private static double NoLikelier(double[] mass, Outcome[][] blades, int next, double limit)
    {
        if (next == blades.Length)
        {
            double chance = mass.Sum();
            return chance <= limit ? chance : 0;
        }

        double sum = 0;
        foreach (Outcome outcome in blades[next])
        {
            double[] joint = (double[])mass.Clone();
            Multiply(joint, outcome.Chances);
            sum += outcome.Ways * NoLikelier(joint, blades, next + 1, limit);
        }

        return sum;
    }

    /// <summary>What repeats of one blade may feel like, whatever the order, and in how many orders each may come.</summary>
    private static IEnumerable<Outcome> Outcomes(Gaps gaps, BladeTrial blade, int times, FeelProfile feel) =>
        Counts(times, Feels).Select(counts => new Outcome(
            Chances(gaps, [.. counts.SelectMany((n, f) => Enumerable.Repeat(new BladeTrial(blade.Blade, (Feel)f, blade.Leaves), n))], feel),
            counts.Aggregate((Left: times, Ways: 1), (so, n) => (so.Left - n, so.Ways * Choose(so.Left, n))).Ways));

    private static IEnumerable<int[]> Counts(int times, int feels) => feels == 1
        ? [[times]]
        : Enumerable.Range(0, times + 1).SelectMany(n => Counts(times - n, feels - 1), (n, rest) => (int[])[n, .. rest]);

    private static int Choose(int of, int some) => Enumerable.Range(1, some).Aggregate(1, (ways, k) => ways * (of - some + k) / k);

    private static double[] Chances(Gaps gaps, IReadOnlyList<BladeTrial> ofOneBlade, FeelProfile feel)
    {
        BladeGroup blade = BladeGroup.Of(ofOneBlade, feel, gaps.Step)[0];
        return Array.ConvertAll(gaps.At, blade.Chance);
    }

    private static void Multiply(double[] target, double[] factors)
    {
        for (int i = 0; i < target.Length; i++)
        {
            target[i] *= factors[i];
        }
    }

    /// <summary>An outcome at one blade: its chance at each gap, and in how many orders it may come.</summary>
    private sealed record Outcome(double[] Chances, int Ways);

    /// <summary>The gaps that fingers may feel where one is predicted, and the probability of each.</summary>
    private sealed record Gaps(double[] At, double[] Mass, double Step)
    {
        /// <summary>The most places at which a gap is looked for.</summary>
        private const int MostPlaces = 6000;

        public static Gaps Felt(ClearanceDistribution predicted, double shift, double offset)
        {
            (UniformGrid grid, double[] mass) = Places(predicted, offset);
            int reach = (int)Math.Ceiling(Sigmas * offset / grid.Step);
            double[] weights = [.. Enumerable.Range(-reach, (2 * reach) + 1)
                .Select(k => offset > 0 ? Math.Exp(-0.5 * Squares.Of(k * grid.Step / offset)) : 1)];
            double total = weights.Sum();
            double[] spread = new double[grid.Count + (2 * reach)];
            for (int i = 0; i < grid.Count; i++)
            {
                VectorMath.AddScaled(spread.AsSpan(i, weights.Length), weights, mass[i] / total);
            }

            return new([.. Enumerable.Range(-reach, spread.Length).Select(i => grid.At(0) + (i * grid.Step) + shift)], spread, grid.Step);
        }

        /// <summary>The prediction's grid; where that and the offset have too many places, several of them as one.</summary>
        private static (UniformGrid Grid, double[] Mass) Places(ClearanceDistribution predicted, double offset)
        {
            UniformGrid grid = predicted.Grid;
            double all = grid.Count + (2 * Sigmas * offset / grid.Step);
            if (all <= MostPlaces)
            {
                return (grid, predicted.Mass.ToArray());
            }

            int block = (int)Math.Ceiling(all / MostPlaces);
            double[] mass = new double[(grid.Count / block) + 2];
            for (int i = 0; i < grid.Count; i++)
            {
                // What lies between two places is shared between them, so that the mean stays.
                (int at, int past) = Math.DivRem(i, block);
                mass[at] += predicted.Mass[i] * (block - past) / block;
                mass[at + 1] += predicted.Mass[i] * past / block;
            }

            return (new UniformGrid(grid.Start, grid.Step * block, mass.Length), mass);
        }
    }
}
