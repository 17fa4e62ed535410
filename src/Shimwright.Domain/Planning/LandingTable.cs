using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The chance that a valve which is aimed at a clearance lands in its band and stays there, by the aim and by its mean
/// rate. Landing smooths over the error of the change, so that the cubic through points an eighth of it apart is exact to 1e-4.
/// </summary>
internal sealed class LandingTable
{
    private const double PointsPerError = 8;
    private const double Reach = 7;
    private const double Sigmas = 6;

    /// <summary>Sums and products for the chance to leave the band.</summary>
    private const double PerExit = 40;

    private readonly UniformGrid _aims;
    private readonly int _means;

    /// <summary>For each aim the chances under all means, side by side.</summary>
    private readonly double[] _chances;

    public LandingTable(ClearanceBand band, PassageRisk risk, double error, IReadOnlyList<double> means, double spread)
    {
        error = Math.Max(error, BandRule.Finest(band.Width));
        List<(double Point, double Weight)> landings = BandRule.Over(band, risk.ClearanceScale, error);
        double[][] stays = StaysFrom(risk, landings, means, spread, out double made);
        _aims = UniformGrid.Spanning(band.Low - (Reach * error), band.High + (Reach * error), error / PointsPerError);
        _means = means.Count;
        _chances = new double[_aims.Count * _means];
        Made = made + _chances.Length + (2 * Reach * PointsPerError * landings.Count * _means);
        foreach ((int k, (double landing, double weight)) in landings.Index())
        {
            int first = (int)Math.Clamp(Math.Ceiling(_aims.Position(landing - (Reach * error))), 0, _aims.Count);
            int last = (int)Math.Clamp(Math.Floor(_aims.Position(landing + (Reach * error))), -1, _aims.Count - 1);
            for (int j = first; j <= last; j++)
            {
                double density = weight * StandardNormal.Density((landing - _aims.At(j)) / error) / error;
                VectorMath.AddScaled(_chances.AsSpan(j * _means, _means), stays[k], density);
            }
        }
    }

    /// <summary>How many sums and products the table took, roughly.</summary>
    public double Made { get; }

    /// <summary>The chance at an aim, for the rate at a place among the means, in steps.</summary>
    public double At(double aim, double place)
    {
        double position = _aims.Position(aim);
        if (!(position > 1) || !(position < _aims.Count - 2))
        {
            return 0;
        }

        int cell = (int)position;
        double t = position - cell;
        int m = (int)place;
        double u = place - m;
        Span<double> part = stackalloc double[4];
        part[0] = -t * (t - 1) * (t - 2) / 6;
        part[1] = (t + 1) * (t - 1) * (t - 2) / 2;
        part[2] = -(t + 1) * t * (t - 2) / 2;
        part[3] = (t + 1) * t * (t - 1) / 6;
        double chance = 0;
        for (int i = 0; i < 4; i++)
        {
            int at = ((cell - 1 + i) * _means) + m;
            chance += part[i] * (u > 0 ? _chances[at] + (u * (_chances[at + 1] - _chances[at])) : _chances[at]);
        }

        return chance;
    }

    /// <summary>For each landing and each mean rate, the chance to stay: one sum over rates that all means share.</summary>
    private static double[][] StaysFrom(
        PassageRisk risk, List<(double Point, double Weight)> landings, IReadOnlyList<double> means, double spread, out double made)
    {
        (double Rate, double[] Weights)[] rates = [.. Rates(risk, means, spread)];
        made = (double)landings.Count * rates.Length * (means.Count + PerExit);
        double[][] stays = new double[landings.Count][];
        for (int k = 0; k < stays.Length; k++)
        {
            stays[k] = new double[means.Count];
            Array.Fill(stays[k], 1);
            foreach ((double rate, double[] weights) in rates)
            {
                VectorMath.AddScaled(stays[k], weights, -risk.ExitChance(landings[k].Point, rate));
            }
        }

        return stays;
    }

    /// <summary>Rates, split at 0, each with its weight under every mean.</summary>
    private static IEnumerable<(double Rate, double[] Weights)> Rates(PassageRisk risk, IReadOnlyList<double> means, double spread)
    {
        if (spread <= 0)
        {
            return means.Select((mean, m) => (mean, means.Select((_, n) => n == m ? 1.0 : 0).ToArray()));
        }

        double low = means[0] - (Sigmas * spread);
        double high = means[^1] + (Sigmas * spread);
        return Piece(Math.Max(0, low), high).Concat(Piece(low, Math.Min(0, high)));

        IEnumerable<(double Rate, double[] Weights)> Piece(double from, double to)
        {
            if (!(to > from))
            {
                yield break;
            }

            GaussRule rule = GaussRule.For(to - from, Math.Min(spread, risk.RateScale));
            for (int n = 0; n < rule.Order; n++)
            {
                (double rate, double weight) = rule.At(n, from, to);
                yield return (rate, [.. means.Select(mean => weight * StandardNormal.Density((rate - mean) / spread) / spread)]);
            }
        }
    }
}
