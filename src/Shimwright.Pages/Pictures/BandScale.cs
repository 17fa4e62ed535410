using Shimwright.Domain.Engines;
using Shimwright.Jobs.Results;

namespace Shimwright.Pages.Pictures;

/// <summary>Where a clearance lies on the bar: the band with as much again on either side, and whatever is shown beyond.</summary>
internal sealed record BandScale(double Low, double High)
{
    /// <summary>The width of the drawing.</summary>
    public const double Width = 360;

    private const double Edge = 14;

    public static BandScale For(ClearanceBand band, params IEnumerable<double> shown)
    {
        double low = Math.Min(band.Low - band.Width, shown.DefaultIfEmpty(band.Low).Min());
        double high = Math.Max(band.High + band.Width, shown.DefaultIfEmpty(band.High).Max());
        return new(low, high);
    }

    /// <summary>The ends of what is shown of an estimate and a prediction.</summary>
    public static IEnumerable<double> EndsOf(EstimateRow? estimate, PredictedRow? predicted) =>
    [
        .. estimate is null ? Array.Empty<double>() : [estimate.Low, estimate.High, estimate.Mean],
        .. predicted is null ? Array.Empty<double>() : [LowOf(predicted), HighOf(predicted)],
    ];

    /// <summary>Two standard deviations below a prediction: about the lower end of its 95 % interval.</summary>
    public static double LowOf(PredictedRow predicted) => predicted.Mean - (2 * predicted.Sd);

    /// <summary>Two standard deviations above a prediction.</summary>
    public static double HighOf(PredictedRow predicted) => predicted.Mean + (2 * predicted.Sd);

    public double X(double millimetres) => Edge + ((millimetres - Low) / (High - Low) * (Width - (2 * Edge)));
}
