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

    /// <summary>What the chip of the suggested blade says.</summary>
    public const string Try = "try";

    /// <summary>What a blade felt like at a valve when it was tried last; null where it was not tried.</summary>
    public static string? FeltWith(RoundValve valve, double blade) =>
        valve.Readings.Select(r => r.Fact).OfType<BladeTried>().LastOrDefault(t => Math.Abs(t.Blade - blade) < SameBlade) is not { } trial ? null
        : trial.Feel == "no" ? "no entry"
        : FactWords.OfFeel(trial.Feel);

    /// <summary>What is known of a valve in a few words.</summary>
    public static string Brief(RoundValve valve, LengthStyle lengths) =>
        $"{lengths.Clearance(valve.Estimate.Mean)} {lengths.UnitName}, {valve.Status switch { "in" => "in band", "out" => "out of band", _ => "not settled" }}";

    private const double SameBlade = 1e-9;

    /// <summary>A chance in per cent, never quite 0 or 100.</summary>
    public static string Percent(double chance) => chance switch
    {
        > 0.999 => "over 99.9\u00a0%",
        < 0.001 => "under 0.1\u00a0%",
        > 0.99 or < 0.01 => (chance * 100).ToString("0.0", CultureInfo.InvariantCulture) + "\u00a0%",
        _ => (chance * 100).ToString("0", CultureInfo.InvariantCulture) + "\u00a0%",
    };

    /// <summary>An estimate in a sentence.</summary>
    public static string Of(EstimateRow e, LengthStyle lengths) =>
        $"{Between(e, lengths)} {Percent(e.InBand)} chance in band.";

    private static string Between(EstimateRow e, LengthStyle lengths) =>
        $"{lengths.Clearance(e.Mean)} {lengths.UnitName}, between {lengths.Clearance(e.Low)} and {lengths.Clearance(e.High)}.";

    /// <summary>What is known of a valve, in a sentence.</summary>
    public static string Of(RoundValve valve, LengthStyle lengths) =>
        valve.IsRead ? Of(valve.Estimate, lengths)
        : valve.Predicted is { } p ? $"Expected after the change: {lengths.Clearance(p.Mean)} \u00b1 {lengths.Clearance(2 * p.Sd)} {lengths.UnitName}."
        : valve.IsNeeded ? $"Expected: {Between(valve.Estimate, lengths)}"
        : $"At the check: {Between(valve.Estimate, lengths)}";

    /// <summary>Why a blade is suggested.</summary>
    public static string Why(RoundValve valve, SheetPart part, LengthStyle lengths) => valve.Blade is not { } blade ? ""
        : valve.IsAdvised ? $"Try {lengths.Shim(blade)} {lengths.UnitName}. It pays here."
        : valve.IsFurther ? $"Try {lengths.Shim(blade)} {lengths.UnitName}. The valve is out of band, and {(valve.IsBlind ? "no blade has entered" : "every blade was loose")}."
        : part != SheetPart.Check ? $"Try {lengths.Shim(blade)} {lengths.UnitName}. It is the nearest to the expected gap."
        : $"Try {lengths.Shim(blade)} {lengths.UnitName}. Its feel settles most here.";

    /// <summary>What it means that no blade entered.</summary>
    public static string Blind(RoundValve valve, LengthStyle lengths)
    {
        double thinnest = valve.Readings.Select(r => r.Fact).OfType<BladeTried>().Min(t => t.Blade);
        return $"No blade entered, not even {lengths.Shim(thinnest)} {lengths.UnitName}. The figure is an estimate, not a measurement. "
            + "Try a thinner blade, or see if the bucket turns by hand. The plan allows for the doubt.";
    }

    /// <summary>A valve and where it sits.</summary>
    public static string Place(Valve valve) =>
        $"{valve.Id}, {Where(valve)}";

    /// <summary>Where a valve sits.</summary>
    public static string Where(Valve valve) =>
        string.Create(CultureInfo.InvariantCulture, $"cylinder {valve.Cylinder}, {(valve.Side == ValveSide.Intake ? "intake" : "exhaust")}");

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
