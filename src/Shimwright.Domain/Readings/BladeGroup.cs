using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// The trials of one blade or stack at one valve. The blade's own error is one error for all of them; only the fingers
/// are new each time, so that ten repeats do not pretend to ten times the knowledge.
/// </summary>
internal sealed class BladeGroup
{
    private const double SameBlade = 1e-9;
    private const double Sigmas = 5;

    /// <summary>Standard deviations, of the blade's error as the trials can tell it, from one error considered to the next.</summary>
    private const double PerStandardDeviation = 1.2;

    /// <summary>The most errors considered on either side of none.</summary>
    private const int MostEachWay = 60;

    private readonly FeelProfile _feel;
    private readonly (Feel Feel, int Times)[] _felt;
    private readonly (double Error, double Weight)[] _errors;
    private readonly double _spread;

    private BladeGroup(double blade, int leaves, IReadOnlyList<Feel> felt, FeelProfile feel, double floor)
    {
        Blade = blade;
        _feel = feel;
        _felt = [.. felt.GroupBy(f => f).Select(f => (f.Key, f.Count()))];
        double error = Math.Sqrt(leaves) * feel.Blade;
        bool isOne = felt.Count == 1 || error == 0;
        _spread = isOne
            ? Math.Max(floor, feel.StandardDeviationOf(leaves))
            : FeltOf(feel, error, felt.Count, floor) * Math.Sqrt(felt.Count);
        _errors = isOne ? [(0, 1)] : Errors(error, _spread / Math.Sqrt(felt.Count));
    }

    /// <summary>Nominal thickness, mm.</summary>
    public double Blade { get; }

    /// <summary>The trials of a valve, blade by blade.</summary>
    public static IReadOnlyList<BladeGroup> Of(IEnumerable<BladeTrial> trials, FeelProfile feel, double floor = 0)
    {
        List<(BladeTrial First, List<Feel> Felt)> groups = [];
        foreach (BladeTrial trial in trials)
        {
            int same = groups.FindIndex(g => g.First.Leaves == trial.Leaves && Math.Abs(g.First.Blade - trial.Blade) < SameBlade);
            if (same < 0)
            {
                groups.Add((trial, [trial.Feel]));
            }
            else
            {
                groups[same].Felt.Add(trial.Feel);
            }
        }

        return [.. groups.Select(g => new BladeGroup(g.First.Blade, g.First.Leaves, g.Felt, feel, floor))];
    }

    /// <summary>The chance of everything that was felt, in a gap.</summary>
    public double Chance(double gap)
    {
        double sum = 0;
        foreach ((double error, double weight) in _errors)
        {
            double product = weight;
            foreach ((Feel felt, int times) in _felt)
            {
                double chance = _feel.ChanceAt(felt, gap - Blade + error, _spread);
                product *= times == 1 ? chance : Math.Pow(chance, times);
            }

            sum += product;
        }

        return sum;
    }

    /// <summary>The length over which the likelihood of trials of one blade changes, mm.</summary>
    /// <param name="feel">The fingers.</param>
    /// <param name="leaves">Leaves in the stack.</param>
    /// <param name="times">How many trials there are of it.</param>
    public static double ScaleOf(FeelProfile feel, int leaves, int times) => times == 1
        ? feel.StandardDeviationOf(leaves)
        : Math.Sqrt((Squares.Of(feel.StandardDeviation) / times) + (leaves * Squares.Of(feel.Blade)));

    /// <summary>How many errors of a blade are considered.</summary>
    /// <param name="feel">The fingers.</param>
    /// <param name="leaves">Leaves in the stack.</param>
    /// <param name="times">How many trials there are of it.</param>
    /// <param name="floor">The least length that is told apart, mm.</param>
    public static int ErrorsOf(FeelProfile feel, int leaves, int times, double floor)
    {
        double error = Math.Sqrt(leaves) * feel.Blade;
        return times == 1 || error == 0 ? 1 : (2 * EachWay(error, FeltOf(feel, error, times, floor))) + 1;
    }

    /// <summary>How closely repeats tell a gap apart from their blade's error: no finer than so many errors of it can be considered.</summary>
    private static double FeltOf(FeelProfile feel, double error, int times, double floor) => Math.Max(
        Math.Max(floor, feel.StandardDeviation / Math.Sqrt(times)), Sigmas * error / (PerStandardDeviation * MostEachWay));

    private static int EachWay(double error, double felt)
    {
        double told = error * felt / Squares.CombinedStandardUncertainty(error, felt);
        return (int)Math.Ceiling(Sigmas * error / (PerStandardDeviation * told));
    }

    private static (double Error, double Weight)[] Errors(double error, double felt)
    {
        int each = EachWay(error, felt);
        double apart = Sigmas * error / each;
        (double Error, double Weight)[] all = [.. Enumerable.Range(-each, (2 * each) + 1)
            .Select(k => (k * apart, Math.Exp(-0.5 * Squares.Of(k * apart / error))))];
        double total = all.Sum(a => a.Weight);
        return Array.ConvertAll(all, a => (a.Error, a.Weight / total));
    }
}
