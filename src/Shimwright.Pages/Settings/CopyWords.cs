using System.Globalization;
using Shimwright.Bench.Copies;

namespace Shimwright.Pages.Settings;

/// <summary>Copies of the bench in words.</summary>
public static class CopyWords
{
    private const double Kilo = 1024;

    /// <summary>How old the newest copy is.</summary>
    public static string Newest(IReadOnlyList<KeptCopy> copies, DateTime now) => copies is [var newest, ..]
        ? $"The newest copy is {Age(now - newest.At)} old."
        : "There is no copy yet.";

    /// <summary>A size as people read it.</summary>
    public static string Size(long bytes) => bytes < Kilo * Kilo
        ? string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(bytes / Kilo):0} kB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes / Kilo / Kilo:0.0} MB");

    /// <summary>A count as it was typed; none where it is no number, which no rule allows.</summary>
    public static int Count(string? text) => int.TryParse(text, NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out int count) ? count : 0;

    private static string Age(TimeSpan age) => age switch
    {
        { TotalMinutes: < 2 } => "a minute",
        { TotalHours: < 2 } => Of(age.TotalMinutes, "minutes"),
        { TotalDays: < 2 } => Of(age.TotalHours, "hours"),
        _ => Of(age.TotalDays, "days"),
    };

    private static string Of(double count, string unit) => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(count):0} {unit}");
}
