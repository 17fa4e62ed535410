namespace Shimwright.Jobs.Results;

/// <summary>How many digits an answer carries: more than anyone needs, fewer than would be noise.</summary>
internal static class Rounding
{
    public static double Length(double millimetres) => Tidy(Math.Round(millimetres, 6));

    public static double Chance(double chance) => Tidy(Math.Round(chance, 8));

    public static double? Chance(double? chance) => chance is { } c ? Chance(c) : null;

    /// <summary>A tail probability, to three significant digits.</summary>
    public static double Evidence(double chance) =>
        double.Parse(chance.ToString("E2", System.Globalization.CultureInfo.InvariantCulture), System.Globalization.CultureInfo.InvariantCulture);

    public static double Clock(double clock) => Tidy(Math.Round(clock, 6));

    public static double Minutes(double minutes) => Tidy(Math.Round(minutes, 6));

    public static double Turns(double turns) => Tidy(Math.Round(turns, 6));

    public static double Degrees(double degrees) => Tidy(Math.Round(degrees, 6));

    private static double Tidy(double value) => value == 0 ? 0 : value;
}
