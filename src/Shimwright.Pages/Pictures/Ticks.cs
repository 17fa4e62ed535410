namespace Shimwright.Pages.Pictures;

/// <summary>Round numbers for an axis.</summary>
internal static class Ticks
{
    private static readonly double[] Steps = [1, 2, 5, 10];

    /// <summary>Round numbers between two others, both counted in.</summary>
    /// <param name="low">The lower end.</param>
    /// <param name="high">The upper end, above the lower.</param>
    /// <param name="most">How many at most, 2 or more.</param>
    public static IReadOnlyList<double> Between(double low, double high, int most)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10((high - low) / most)));
        double step = Steps.Select(s => s * power).First(s => Math.Floor(high / s) - Math.Ceiling(low / s) < most);
        int first = (int)Math.Ceiling((low / step) - 1e-9);
        int last = (int)Math.Floor((high / step) + 1e-9);
        return [.. Enumerable.Range(first, last - first + 1).Select(k => k * step)];
    }
}
