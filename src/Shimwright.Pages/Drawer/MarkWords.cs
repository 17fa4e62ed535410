using Shimwright.Domain.Shims;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Drawer;

/// <summary>Words about marks.</summary>
internal static class MarkWords
{
    /// <summary>A difference with its sign.</summary>
    public static string Signed(double difference, LengthStyle lengths) =>
        lengths.Clearance(Math.Abs(difference)) is var size && size.Trim('0', '.').Length == 0 ? size : (difference > 0 ? "+" : "\u2212") + size;

    /// <summary>What to do: marks that scatter too much or are off as a whole are not to be trusted.</summary>
    public static string Verdict(MarkSpread spread) =>
        ScattersMore(spread) || IsThinner(spread) || IsThicker(spread) ? "Measure every shim before it goes in" : "Use the marks";

    /// <summary>Why, of the mean and of the scatter.</summary>
    public static string Why(MarkSpread spread)
    {
        string mean = IsThinner(spread) ? "On average the shims are thinner than their marks. Check for wear. "
            : IsThicker(spread) ? "On average the shims are thicker than their marks. Check the zero of the micrometer. "
            : "";
        return mean + (ScattersMore(spread) ? "They scatter more than assumed."
            : spread.DeviationInterval.High < Usual ? "They scatter less than assumed."
            : "They scatter as assumed.");
    }

    private static double Usual => MarkSpread.Expected(Instrument.Marked, Instrument.Micrometer);

    private static bool ScattersMore(MarkSpread spread) => spread.DeviationInterval.Low > Usual;

    private static bool IsThinner(MarkSpread spread) => spread.MeanInterval.High < -Instrument.Micrometer.Systematic;

    private static bool IsThicker(MarkSpread spread) => spread.MeanInterval.Low > Instrument.Micrometer.Systematic;
}
