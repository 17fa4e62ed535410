namespace Shimwright.Domain.Numerics;

/// <summary>Squares and the combination of independent uncertainties.</summary>
internal static class Squares
{
    public static double Of(double x) => x * x;

    /// <summary>
    /// The root of the sum of squares: the combined standard uncertainty of independent parts whose
    /// sensitivity is 1 (JCGM 100:2008, 5.1.2, equation 10).
    /// </summary>
    public static double CombinedStandardUncertainty(params ReadOnlySpan<double> parts)
    {
        double sum = 0;
        foreach (double part in parts)
        {
            sum += part * part;
        }

        return Math.Sqrt(sum);
    }
}
