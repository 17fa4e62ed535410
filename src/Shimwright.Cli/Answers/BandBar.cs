using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Cli.Answers;

/// <summary>
/// An estimate against its band in one line of text: [ and ] are the limits, a row of = the 95 % interval, o the
/// expected clearance; arrows where it runs off the scale. The scale reaches one band width beyond each limit.
/// </summary>
internal static class BandBar
{
    private const int CellsPerBand = 5;
    private const int Cells = (3 * CellsPerBand) + 2;
    private const int LowAt = CellsPerBand;
    private const int HighAt = (2 * CellsPerBand) + 1;

    public static string Of(ClearanceBand band, ClearanceEstimate estimate)
    {
        char[] bar = new string('.', Cells).ToCharArray();
        bar[LowAt] = '[';
        bar[HighAt] = ']';
        for (int i = Cell(band, estimate.Low); i <= Cell(band, estimate.High); i++)
        {
            bar[i] = i is LowAt or HighAt ? bar[i] : '=';
        }

        bar[Cell(band, estimate.Mean)] = 'o';
        if (estimate.Low < Lowest(band))
        {
            bar[0] = '<';
        }

        if (estimate.High > band.High + band.Width)
        {
            bar[^1] = '>';
        }

        return new string(bar);
    }

    private static double Lowest(ClearanceBand band) => band.Low - band.Width;

    private static int Cell(ClearanceBand band, double clearance)
    {
        double position = (clearance - Lowest(band)) / (3 * band.Width) * (Cells - 1);
        return (int)Math.Clamp(Math.Round(position), 0, Cells - 1);
    }
}
