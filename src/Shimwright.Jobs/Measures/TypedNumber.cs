using System.Globalization;
using System.Text.RegularExpressions;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Measures;

/// <summary>A number that a person typed into a field, or what is wrong with it.</summary>
/// <param name="Value">The number, always finite; null where the field was left blank or there is a problem.</param>
/// <param name="Problem">What is wrong, or null.</param>
public sealed partial record TypedNumber(double? Value, JobProblem? Problem)
{
    private const int LongestShown = 40;

    /// <summary>A bare number, such as a count, a ratio or a chance.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <param name="needed">Whether a blank field is a problem.</param>
    /// <returns>The number.</returns>
    public static TypedNumber Plain(string? text, string path, bool needed = true) =>
        Read(text, path, needed, "5 or 0.5", thousandsLikely: false, unit => unit.Length == 0 ? n => n : null);

    /// <summary>A time of work; minutes, or with a unit such as "1.5 h".</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <param name="needed">Whether a blank field is a problem.</param>
    /// <returns>Minutes.</returns>
    public static TypedNumber Minutes(string? text, string path, bool needed = true) =>
        Read(text, path, needed, "25 or 1.5 h", thousandsLikely: true, unit => unit is "" or "min" or "h" ? In(unit, Measure.Duration) : null);

    /// <summary>A temperature; degrees Celsius, or with a unit such as "68 °F".</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <param name="needed">Whether a blank field is a problem.</param>
    /// <returns>Degrees Celsius.</returns>
    public static TypedNumber Temperature(string? text, string path, bool needed = true) =>
        Read(text, path, needed, "20 or 68 °F", thousandsLikely: false, unit => unit.ToUpperInvariant() switch
        {
            "" or "°" => n => n,
            "C" or "°C" => In("°C", Measure.Temperature),
            "F" or "°F" => In("°F", Measure.Temperature),
            _ => null,
        });

    /// <summary>Degrees of the crank.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <param name="needed">Whether a blank field is a problem.</param>
    /// <returns>Degrees.</returns>
    public static TypedNumber Degrees(string? text, string path, bool needed = true) =>
        Read(text, path, needed, "20 or 12.5°", thousandsLikely: false, unit => unit is "" or "°" or "deg" ? n => n : null);

    /// <summary>The engine's clock, in its own unit.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <param name="unit">h or km; another one in the text is a problem.</param>
    /// <param name="needed">Whether a blank field is a problem.</param>
    /// <returns>The clock.</returns>
    public static TypedNumber Clock(string? text, string path, string unit = "h", bool needed = true) =>
        Read(text, path, needed, $"118 or 118.5 {unit}", thousandsLikely: true, u => u.Length == 0 || u == unit ? n => n : null);

    /// <summary>The number, after its problem, where it has one, was added to a list.</summary>
    /// <param name="problems">The list.</param>
    /// <returns>The number, or null.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="problems"/> is null.</exception>
    public double? Note(ICollection<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        if (Problem is not null && !FirstProblems.AreEnough(problems))
        {
            problems.Add(Problem);
        }

        return Value;
    }

    /// <summary>Reads a number and hands its unit over; a comma or a point is the decimal mark, and nothing stands between thousands.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <param name="needed">Whether a blank field is a problem.</param>
    /// <param name="example">What may be written, for the problem.</param>
    /// <param name="thousandsLikely">Whether 12,500 is more likely twelve thousand than twelve and a half.</param>
    /// <param name="unit">From a unit, as typed and blank where there is none, to the conversion; null where it is no unit here.</param>
    internal static TypedNumber Read(string? text, string path, bool needed, string example, bool thousandsLikely, Func<string, Func<double, double?>?> unit)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            return new(null, needed ? new(path, "nothing was entered", $"enter a number, such as {example}") : null);
        }

        if (text.Length > Limits.LongestNumber)
        {
            return Refused($"{Limits.NumberRule}; enter a number such as {example}");
        }

        if (NumberAndUnit().Match(text) is not { Success: true } match || unit(match.Groups["unit"].Value) is not { } convert)
        {
            return Refused($"enter one number with a comma or a point for the decimals and none between thousands, such as {example}");
        }

        string number = match.Groups["number"].Value;
        if (thousandsLikely && ThousandsOrDecimals().IsMatch(number))
        {
            string whole = number.Replace(",", "", StringComparison.Ordinal).Replace(".", "", StringComparison.Ordinal);
            return Refused($"that may be {whole} or {number.Replace(',', '.').TrimEnd('0').TrimEnd('.')}; enter the one that is meant, with nothing between thousands");
        }

        // U+2212 is the minus sign of a phone's keyboard.
        string plain = number.Replace(',', '.').Replace('\u2212', '-');
        return double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out double read)
            && convert(read) is { } value && double.IsFinite(value)
            ? new(value + 0.0, null)
            : Refused($"enter a number, such as {example}");

        TypedNumber Refused(string next) => new(null, new(path, $"found \"{Shown(text)}\"", next));
    }

    /// <summary>The conversion from a unit to the program's own.</summary>
    internal static Func<double, double?> In(string unit, Measure measure) =>
        n => unit.Length == 0 ? n : MeasuredText.Read($"{n.ToString("R", CultureInfo.InvariantCulture)} {unit}", measure);

    private static string Shown(string text) => text.Length <= LongestShown ? text : string.Concat(text.AsSpan(0, LongestShown), "...");

    [GeneratedRegex(@"^\s*(?<number>[-+\u2212]?(?>[0-9]+([.,][0-9]*)?|[.,][0-9]+))\s*(?<unit>[^\s0-9.,][^\s0-9]*)?\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberAndUnit();

    [GeneratedRegex(@"^[-+\u2212]?[1-9][0-9]{0,2}[.,][0-9]{3}$", RegexOptions.CultureInvariant)]
    private static partial Regex ThousandsOrDecimals();
}
