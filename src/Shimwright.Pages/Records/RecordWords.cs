using System.Globalization;
using Shimwright.Bench.Due;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Wording;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Records;

/// <summary>A record in words that the owner of an engine reads.</summary>
internal static class RecordWords
{
    /// <summary>What a gap means: too tight, too wide, within the limits, or at their edge.</summary>
    public static string Gap(EstimateRow? gap, IReadOnlyList<double> band) => gap switch
    {
        null => "not measured",
        { Status: "in" } => "within limits",
        { Status: "out" } => gap.Mean < (band[0] + band[1]) / 2 ? "too tight" : "too wide",
        _ => gap.Mean < (band[0] + band[1]) / 2 ? "near the lower limit" : "near the upper limit",
    };

    /// <summary>A gap with how well it is known.</summary>
    public static string Length(EstimateRow? gap, LengthStyle lengths) =>
        gap is null ? "" : $"{lengths.Clearance(gap.Mean)} \u00b1 {lengths.Clearance((gap.High - gap.Low) / 2)}";

    /// <summary>What was done at a valve.</summary>
    public static string Done(RecordRow row, LengthStyle lengths) => row switch
    {
        { Change: "fit", Found: { } found, Fitted: { } fitted } => $"{lengths.Shim(found.Thickness, found.By)} out, {lengths.Shim(fitted.Thickness, fitted.By)} in",
        { Change: "fit", Fitted: { } fitted } => $"{lengths.Shim(fitted.Thickness, fitted.By)} fitted",
        { Change: "turn", Turns: { } turns } => $"screw {WorkingWords.Flats(turns)}",
        { Found: { } found } => $"{lengths.Shim(found.Thickness, found.By)} left in",
        _ => "left alone",
    };

    /// <summary>What the last column says of a valve.</summary>
    public static string Verdict(RecordRow row) =>
        row.Passes ? "passes" : row is { Change: not null, ReadAgain: false } ? "not checked again" : row.After is null ? "not measured"
        : row.FeltTooLittle ? "felt too little" : "does not pass";

    /// <summary>The record in one sentence.</summary>
    public static string Summary(JobRecord record)
    {
        string[] bad = [.. record.Valves.Where(v => !v.Passes).Select(v => v.Valve)];
        return record.IsNothingToDo ? $"Checked, nothing to do. {Chance(record)}"
            : bad.Length == 0 ? $"{Work(record)}. Checked, passes. {Chance(record)}"
            : $"{Work(record)}. {string.Join(", ", bad)} {(bad.Length == 1 ? "does" : "do")} not pass: see below before the engine is run.";
    }

    /// <summary>How many valves were adjusted.</summary>
    public static string Work(JobRecord record)
    {
        int changed = record.Valves.Count(v => v.Change is not null);
        return changed == 0 ? "No valve was changed"
            : string.Create(CultureInfo.InvariantCulture, $"{changed} of {record.Valves.Count} valves {(changed == 1 ? "was" : "were")} adjusted");
    }

    /// <summary>What was shown, in figures: the chance of all valves where it was kept, and the most doubtful valve.</summary>
    private static string Chance(JobRecord record)
    {
        RecordRow doubtful = record.Valves.MinBy(v => v.After?.InBand)!;
        string all = record.ChanceAll is { } chance ? $"Chance that all {record.Valves.Count} valves are within the maker's limits: {Chances.Fine(chance)}. " : "";
        return $"{all}Most doubtful: {doubtful.Valve}, {Chances.Fine(doubtful.After!.InBand)}.";
    }

    public static string Clock(double clock, string unit) => string.Create(CultureInfo.InvariantCulture, $"{clock:0.#} {unit}");

    /// <summary>
    /// By when to look at the engine again, as it stands on paper, with the risk that is run until then (less where the maker's
    /// interval comes first); empty where its card does not say what wear is usual.
    /// </summary>
    public static string NextCheck(KeptForecast forecast, string unit, LocalTimes local) => forecast switch
    {
        { CheckBy: null } => "",
        { CheckBy: { } by } when by <= forecast.Clock => $"due now: the chance that a valve is outside its limits is above {Chances.Rough(forecast.Risk)} already",
        { CheckBy: { } by, DueAt: { } day } => $"by {Clock(by, unit)}, about {local.Day(day)} as it is used now; {RiskUntil(forecast)}",
        { CheckBy: { } by } => $"by {Clock(by, unit)}; {RiskUntil(forecast)}",
    };

    private static string RiskUntil(KeptForecast forecast) => $"until then a chance of at most {Chances.Rough(forecast.Risk)} that a valve leaves its limits";
}
