using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The mean rates that go with the clearances a valve may have, in even steps that are small against the doubt of the
/// rate. One step where the clearance says nothing about the rate.
/// </summary>
internal sealed class RateTrack
{
    private const double Sigmas = 6;
    private const double StepsPerScale = 8;
    private const int MostSteps = 64;
    private const double Negligible = 1e-4;
    private readonly double _first;
    private readonly double _perPoint;

    public RateTrack(ClearanceDistribution valve, RateGivenClearance rate, double rateScale)
    {
        double middle = rate.Mean + (rate.Slope * (valve.Mean - rate.At));
        double reach = Sigmas * Math.Abs(rate.Slope) * valve.StandardDeviation;
        double scale = Squares.CombinedStandardUncertainty(rate.StandardDeviation, rateScale);
        int steps = (int)Math.Min(MostSteps, Math.Ceiling(2 * reach / scale * StepsPerScale));
        if (reach < Negligible * scale)
        {
            Means = [middle];
            return;
        }

        double step = 2 * reach / steps;
        Means = [.. Enumerable.Range(0, steps + 1).Select(m => middle - reach + (m * step))];
        _perPoint = rate.Slope * valve.Grid.Step / step;
        _first = (rate.Mean + (rate.Slope * (valve.Grid.Start - rate.At)) - Means[0]) / step;
    }

    /// <summary>The mean rates, lowest first.</summary>
    public IReadOnlyList<double> Means { get; } = [];

    /// <summary>Where among them the rate of a grid point stands, in steps.</summary>
    public double PlaceOf(int point) => Math.Clamp(_first + (_perPoint * point), 0, Means.Count - 1);
}
