using System.Globalization;
using Shimwright.Jobs.Settings;

namespace Shimwright.Pages.Wording;

/// <summary>Days and times as they are where the bench stands. Pages find them cascading from the document.</summary>
/// <param name="Zone">The bench's time zone.</param>
/// <param name="Now">When the page is made, UTC.</param>
public sealed record LocalTimes(TimeZoneInfo Zone, DateTime Now)
{
    /// <summary>Without zone and clock, for a part that nobody has told.</summary>
    public static LocalTimes Unknown { get; } = new(TimeZoneInfo.Utc, default);

    /// <summary>The day that it is.</summary>
    public DateTime Today => Date(Now);

    /// <summary>Those of a bench: its own zone, or where it has none, or the machine does not know it, the machine's.</summary>
    public static LocalTimes Of(BenchSettings settings, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(time);
        return new(Known(settings.TimeZone) ?? time.LocalTimeZone, time.GetUtcNow().UtcDateTime);
    }

    /// <summary>The zone of a name, or null where the machine knows none.</summary>
    public static TimeZoneInfo? Known(string name) =>
        !string.IsNullOrEmpty(name) && TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? zone) ? zone : null;

    /// <summary>The day of a moment.</summary>
    public DateTime Date(DateTime utc) => At(utc).Date;

    public string Minute(DateTime utc) => At(utc).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    public string Day(DateTime utc) => At(utc).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>When something was last done: the time of today, else the day.</summary>
    public string Lately(DateTime utc) => (Today - Date(utc)).Days switch
    {
        0 => At(utc).ToString("HH:mm", CultureInfo.InvariantCulture) + " today",
        1 => "yesterday",
        _ => Day(utc),
    };

    private DateTime At(DateTime utc) => TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc), Zone);
}
