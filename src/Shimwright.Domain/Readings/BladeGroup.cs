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

    private readonly FeelProfile _feel;
    private readonly (Feel Feel, int Times)[] _felt;
    private readonly (double Error, double Weight)[] _errors;
    private readonly double _spread;

    private BladeGroup(double blade, int leaves, IReadOnlyList<Feel> felt, FeelProfile feel)
    {
        Blade = blade;
        _feel = feel;
        _felt = [.. felt.GroupBy(f => f).Select(f => (f.Key, f.Count()))];
        double error = Math.Sqrt(leaves) * feel.Blade;
        bool isOne = felt.Count == 1 || error == 0;
        _spread = isOne ? feel.StandardDeviationOf(leaves) : feel.StandardDeviation;
        _errors = isOne ? [(0, 1)] : Errors(error, feel.StandardDeviation / Math.Sqrt(felt.Count));
        Scale = Math.Sqrt(Squares.Of(_spread / Math.Sqrt(felt.Count)) + (isOne ? 0 : Squares.Of(error)));
    }

    /// <summary>Nominal thickness, mm.</summary>
    public double Blade { get; }

    /// <summary>The length over which their likelihood changes, mm.</summary>
    public double Scale { get; }

    /// <summary>The trials of a valve, blade by blade.</summary>
    public static IReadOnlyList<BladeGroup> Of(IEnumerable<BladeTrial> trials, FeelProfile feel)
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

        return [.. groups.Select(g => new BladeGroup(g.First.Blade, g.First.Leaves, g.Felt, feel))];
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

    private static (double Error, double Weight)[] Errors(double error, double felt)
    {
        double told = error * felt / Squares.CombinedStandardUncertainty(error, felt);
        int each = (int)Math.Ceiling(Sigmas * error / (PerStandardDeviation * told));
        double apart = Sigmas * error / each;
        (double Error, double Weight)[] all = [.. Enumerable.Range(-each, (2 * each) + 1)
            .Select(k => (k * apart, Math.Exp(-0.5 * Squares.Of(k * apart / error))))];
        double total = all.Sum(a => a.Weight);
        return Array.ConvertAll(all, a => (a.Error, a.Weight / total));
    }
}
