using System.Globalization;

namespace Shimwright.Jobs.Wording;

/// <summary>How lengths are written in sentences.</summary>
/// <param name="Clearance">A clearance, as a number.</param>
/// <param name="Shim">A thickness, as a number.</param>
/// <param name="Unit">Their unit.</param>
public sealed record LengthWords(Func<double, string> Clearance, Func<double, string> Shim, string Unit)
{
    /// <summary>Millimetres: clearances to the micrometre, thicknesses to the hundredth, and the third digit where there is one.</summary>
    public static LengthWords Millimetres { get; } = new(
        mm => mm.ToString("0.000;-0.000;0.000", CultureInfo.InvariantCulture), mm => mm.ToString("0.00#", CultureInfo.InvariantCulture), "mm");
}
