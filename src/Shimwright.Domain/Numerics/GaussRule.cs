using MathNet.Numerics.Integration;

namespace Shimwright.Domain.Numerics;

/// <summary>Gauss-Legendre rules of a few orders on [-1, 1], and how many points a function with bends of a given length needs.</summary>
internal sealed class GaussRule
{
    /// <summary>Points a rule needs beyond those that follow the bends.</summary>
    private const double Spare = 6;

    /// <summary>Points a bend: a bell over twelve of its standard deviations comes out to about 1e-6.</summary>
    private const double PointsPerBend = 1.3;

    private static readonly GaussRule[] Rules = [.. new[] { 8, 12, 16, 24, 32, 48, 64, 96, 128 }.Select(n => new GaussRule(n))];

    private readonly double[] _points;
    private readonly double[] _weights;

    private GaussRule(int order)
    {
        var rule = new GaussLegendreRule(-1, 1, order);
        _points = rule.Abscissas;
        _weights = rule.Weights;
    }

    public int Order => _points.Length;

    /// <summary>The rule for an interval in which nothing bends faster than over <paramref name="scale"/>; 128 points at most.</summary>
    public static GaussRule For(double length, double scale, double pointsPerBend = PointsPerBend)
    {
        double wanted = Spare + (pointsPerBend * length / scale);
        foreach (GaussRule rule in Rules)
        {
            if (rule.Order >= wanted)
            {
                return rule;
            }
        }

        return Rules[^1];
    }

    /// <summary>A point of the rule on [low, high] and its weight.</summary>
    public (double Point, double Weight) At(int index, double low, double high)
    {
        double half = (high - low) / 2;
        return (low + (half * (1 + _points[index])), half * _weights[index]);
    }
}
