using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>
/// The cells of the slow posterior. Clearances and shared losses are midpoints of cells, and both steps are whole
/// multiples of the table's, so that their sums lie on the table's points.
/// </summary>
/// <param name="TableStep">Step of the table of the own density, mm.</param>
/// <param name="PerClearance">Table steps in a clearance cell.</param>
/// <param name="PerLoss">Table steps in a shared loss cell.</param>
internal sealed record SlowGrid(double TableStep, int PerClearance, int PerLoss)
{
    public static SlowGrid Usual { get; } = new(0.0001, 2, 5);

    /// <summary>For engines whose many valves know the shared loss better than a cell of the usual grid.</summary>
    public static SlowGrid FineLoss { get; } = new(0.0001, 2, 2);

    /// <summary>For readings or bands so fine that a cell of the usual grid is no small part of them.</summary>
    public static SlowGrid Fine { get; } = new(0.00005, 1, 3);

    public double ClearanceStep => TableStep * PerClearance;

    public double LossStep => TableStep * PerLoss;

    public double[] Losses => [.. Enumerable.Range(0, (int)Math.Round(0.24 / LossStep)).Select(k => (k + 0.5) * LossStep)];

    /// <summary>The share of the cell about c that lies in the band.</summary>
    public double ShareInBand(double c, ClearanceBand band)
    {
        double from = Math.Max(band.Low, c - (ClearanceStep / 2));
        double to = Math.Min(band.High, c + (ClearanceStep / 2));
        return Math.Clamp((to - from) / ClearanceStep, 0, 1);
    }
}
