using System.Globalization;

namespace Shimwright.Pages.Wording;

/// <summary>Times and plain numbers as pages write them: alike in every culture.</summary>
internal static class Times
{
    public static string Minute(DateTime utc) => utc.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture) + " UTC";

    public static string Day(DateTime utc) => utc.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>When something was last done: the time of today, else the day.</summary>
    public static string Lately(DateTime utc, DateTime today) => (today.Date - utc.Date).Days switch
    {
        0 => utc.ToString("HH:mm", CultureInfo.InvariantCulture) + " UTC today",
        1 => "yesterday",
        _ => Day(utc),
    };

    /// <summary>A length of work.</summary>
    public static string Minutes(double minutes) =>
        minutes < 90 ? string.Create(CultureInfo.InvariantCulture, $"{minutes:0} min")
            : string.Create(CultureInfo.InvariantCulture, $"{(int)Math.Round(minutes) / 60} h {(int)Math.Round(minutes) % 60:00} min");

    /// <summary>A number as it is put into a field: nothing of it is rounded away.</summary>
    public static string Exact(double value) => value.ToString("0.############", CultureInfo.InvariantCulture);

    /// <summary>A clock's count or another plain number.</summary>
    public static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
