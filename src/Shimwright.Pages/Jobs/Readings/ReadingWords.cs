using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>What a round of reading says, in words.</summary>
internal static class ReadingWords
{
    public const string Suggested = "suggested";

    /// <summary>A chance in per cent, never quite 0 or 100.</summary>
    public static string Percent(double chance) => chance switch
    {
        > 0.999 => "over 99.9 %",
        < 0.001 => "under 0.1 %",
        > 0.99 or < 0.01 => (chance * 100).ToString("0.0", CultureInfo.InvariantCulture) + " %",
        _ => (chance * 100).ToString("0", CultureInfo.InvariantCulture) + " %",
    };

    /// <summary>An estimate in a sentence.</summary>
    public static string Of(EstimateRow e, LengthStyle lengths) =>
        $"{lengths.Clearance(e.Mean)} {lengths.UnitName}, between {lengths.Clearance(e.Low)} and {lengths.Clearance(e.High)}; in band with {Percent(e.InBand)}";

    /// <summary>What is known of a valve, in a sentence.</summary>
    public static string Of(RoundValve valve, LengthStyle lengths) =>
        valve.IsRead ? Of(valve.Estimate, lengths)
        : valve.Predicted is { } p ? $"Expected after the change: {lengths.Clearance(p.Mean)} {lengths.UnitName}, give or take {lengths.Clearance(2 * p.Sd)}. Nothing felt yet."
        : valve.IsNeeded ? $"Nothing read yet. Expected from what is suspected: {Of(valve.Estimate, lengths)}."
        : $"Left alone; as read at the check: {Of(valve.Estimate, lengths)}";

    /// <summary>Why a blade is suggested.</summary>
    public static string Why(RoundValve valve, SheetPart part, LengthStyle lengths) => valve.Blade is not { } blade ? ""
        : valve.IsAdvised ? $"{lengths.Shim(blade)} {lengths.UnitName} is suggested: it pays to try it here."
        : part != SheetPart.Check ? $"{lengths.Shim(blade)} {lengths.UnitName} is suggested: nearest to what is expected."
        : $"{lengths.Shim(blade)} {lengths.UnitName} is suggested: its feel would settle most here.";

    /// <summary>What it means that no blade entered.</summary>
    public static string Blind(RoundValve valve, LengthStyle lengths)
    {
        double thinnest = valve.Readings.Select(r => r.Fact).OfType<BladeTried>().Min(t => t.Blade);
        return $"No blade entered, not even {lengths.Shim(thinnest)} {lengths.UnitName}: the clearance is less than about that, and how much less is expectation, not feel. "
            + "The plan takes the doubt into account; a thinner blade, or whether the bucket turns by hand, says more.";
    }

    /// <summary>A valve and where it sits.</summary>
    public static string Place(Valve valve) =>
        string.Create(CultureInfo.InvariantCulture, $"{valve.Id}, cylinder {valve.Cylinder}, {(valve.Side == ValveSide.Intake ? "intake" : "exhaust")}");

    /// <summary>A reading without the name of its valve.</summary>
    public static string Of(JobFact fact, LengthStyle lengths)
    {
        string words = FactWords.Of(fact, lengths);
        return fact is ReadingFact reading && words.StartsWith(reading.Valve + ": ", StringComparison.Ordinal) ? words[(reading.Valve.Length + 2)..] : words;
    }

    /// <summary>The problems of a job file in the words of this page: the last name of a path is the field.</summary>
    public static IReadOnlyList<JobProblem> Of(IReadOnlyList<JobProblem> problems) => [.. problems.Select(p => p with { Path = FieldOf(p.Path) })];

    private static string FieldOf(string path)
    {
        string last = path[(path.LastIndexOf('.') + 1)..];
        return last switch
        {
            "u" => "uncertainty",
            "value" => "measured clearance",
            "temperatureC" => "temperature",
            _ => last,
        };
    }
}
