using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>The cells of the slow posterior: clearances, shared losses and offsets are midpoints of cells.</summary>
/// <param name="ClearanceStep">Width of a clearance's cell, mm.</param>
/// <param name="LossCells">Cells of the shared loss, narrower towards 0: even in its square root.</param>
/// <param name="OffsetStep">Width of a cell of what fingers are off by, mm; a standard deviation of it at most.</param>
internal sealed record SlowGrid(double ClearanceStep, int LossCells, double OffsetStep)
{
    private const double OffsetSigmas = 6;

    public static SlowGrid Usual { get; } = new(0.0005, 100, 0.002);

    /// <summary>For engines whose many valves know the shared loss and the offset well.</summary>
    public static SlowGrid FineLoss { get; } = new(0.0005, 320, 0.002);

    /// <summary>For readings or bands so fine that a cell of the usual grid is no small part of them.</summary>
    public static SlowGrid Fine { get; } = new(0.0001, 160, 0.002);

    /// <summary>The shared losses and the width that each counts for.</summary>
    public (double Loss, double Width)[] Losses =>
        [.. Enumerable.Range(0, LossCells).Select(k => (k + 0.5) / LossCells).Select(t => (0.24 * t * t, 0.48 * t / LossCells))];

    /// <summary>What fingers of this doubt may be off by, and what each weighs.</summary>
    public (double Offset, double Weight)[] Fingers(double sd) => Offsets(sd, OffsetStep);

    /// <summary>The same for an unknown κ. No reading tells it as well as blades tell fingers.</summary>
    public (double Offset, double Weight)[] Heat(double sd) => Offsets(sd, 2.4 * OffsetStep);

    /// <summary>The share of the cell about c that lies in the band.</summary>
    public double ShareInBand(double c, ClearanceBand band)
    {
        double from = Math.Max(band.Low, c - (ClearanceStep / 2));
        double to = Math.Min(band.High, c + (ClearanceStep / 2));
        return Math.Clamp((to - from) / ClearanceStep, 0, 1);
    }

    private static (double Offset, double Weight)[] Offsets(double sd, double widest)
    {
        if (sd == 0)
        {
            return [(0, 1)];
        }

        double step = Math.Min(sd, widest) / sd;
        int each = (int)Math.Ceiling(OffsetSigmas / step);
        double[] at = [.. Enumerable.Range(-each, (2 * each) + 1).Select(k => k * step)];
        double total = at.Sum(z => Math.Exp(-z * z / 2));
        return [.. at.Select(z => (z * sd, Math.Exp(-z * z / 2) / total))];
    }
}
