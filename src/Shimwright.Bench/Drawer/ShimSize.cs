namespace Shimwright.Bench.Drawer;

/// <summary>Shims that are alike: one diameter, one thickness, found the same way.</summary>
/// <param name="Diameter">Diameter, whole micrometres.</param>
/// <param name="Thickness">Thickness, whole micrometres.</param>
/// <param name="By">marked, calliper or micrometer.</param>
public readonly record struct ShimSize(int Diameter, int Thickness, string By)
{
    /// <summary>The size of a length in millimetres.</summary>
    /// <param name="diameter">Diameter, mm.</param>
    /// <param name="thickness">Thickness, mm.</param>
    /// <param name="by">marked, calliper or micrometer.</param>
    /// <returns>The size, to the micrometre.</returns>
    public static ShimSize Of(double diameter, double thickness, string by) => new(Micrometres(diameter), Micrometres(thickness), by);

    /// <summary>Diameter, mm.</summary>
    public double DiameterMm => Diameter / 1000.0;

    /// <summary>Thickness, mm.</summary>
    public double ThicknessMm => Thickness / 1000.0;

    /// <summary>Whole micrometres of a length.</summary>
    /// <param name="millimetres">The length, mm.</param>
    /// <returns>Micrometres.</returns>
    public static int Micrometres(double millimetres) => (int)Math.Round(millimetres * 1000, MidpointRounding.AwayFromZero);
}
