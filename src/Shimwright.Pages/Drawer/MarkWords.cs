using Shimwright.Domain.Shims;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Drawer;

/// <summary>What marks are worth, in words.</summary>
internal static class MarkWords
{
    /// <summary>A difference with its sign.</summary>
    public static string Signed(double difference, LengthStyle lengths) =>
        lengths.Clearance(Math.Abs(difference)) is var size && size.Trim('0', '.').Length == 0 ? size : (difference > 0 ? "+" : "\u2212") + size;

    /// <summary>How the spread compares with the one that the program takes.</summary>
    public static string Verdict(MarkSpread spread, LengthStyle lengths)
    {
        double usual = MarkSpread.Expected(Instrument.Marked, Instrument.Micrometer);
        string taken = $"The program takes {lengths.Fine(Instrument.Marked.Random)} {lengths.UnitName} for a mark and {lengths.Fine(Instrument.Micrometer.Random)} for the micrometer, {lengths.Fine(usual)} together";
        string spreads = (spread.DeviationInterval.Low > usual, spread.DeviationInterval.High < usual) switch
        {
            (true, _) => $"{taken}; these shims stray more than that. Measure every shim before it goes in, or state a greater uncertainty of marks in the job file (settings, instruments).",
            (_, true) => $"{taken}; these shims stray less than that. Where it stays so, a smaller uncertainty of marks may be stated in the job file (settings, instruments).",
            _ => $"{taken}; these shims do not contradict that.",
        };
        return spread.MeanInterval.High < -Instrument.Micrometer.Systematic
            ? spreads + " On average they are thinner than their marks by more than a micrometer may be off: worn, or marked thick."
            : spread.MeanInterval.Low > Instrument.Micrometer.Systematic
                ? spreads + " On average they are thicker than their marks by more than a micrometer may be off: look at its zero."
                : spreads;
    }
}
