using System.Globalization;

namespace Shimwright.Pages.Wording;

/// <summary>Lengths of work and plain numbers as pages write them: alike in every culture.</summary>
internal static class Times
{
    /// <summary>A length of work.</summary>
    public static string Minutes(double minutes) =>
        minutes < 90 ? string.Create(CultureInfo.InvariantCulture, $"{minutes:0} min")
            : string.Create(CultureInfo.InvariantCulture, $"{(int)Math.Round(minutes) / 60} h {(int)Math.Round(minutes) % 60:00} min");

    /// <summary>A number as it is put into a field: nothing of it is rounded away.</summary>
    public static string Exact(double value) => value.ToString("0.############", CultureInfo.InvariantCulture);

    /// <summary>A clock's count or another plain number.</summary>
    public static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
