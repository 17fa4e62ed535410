namespace Shimwright.Jobs.Due;

/// <summary>Where a figure of usage comes from.</summary>
public enum UsageSource
{
    /// <summary>Nobody has said, and the jobs do not tell.</summary>
    Unknown,

    /// <summary>A person has said.</summary>
    Stated,

    /// <summary>Taken from clocks and dates of the engine's jobs.</summary>
    Estimated,
}

/// <summary>What an engine's clock showed on a day.</summary>
/// <param name="Clock">Hours or km.</param>
/// <param name="At">When, UTC.</param>
public readonly record struct ClockSeen(double Clock, DateTime At);

/// <summary>How much an engine is used, so that a reading of its clock can become a day.</summary>
/// <param name="PerWeek">Hours or km a week, above 0; null where it is not known.</param>
/// <param name="Source">Where that comes from.</param>
public sealed record EngineUsage(double? PerWeek, UsageSource Source)
{
    /// <summary>The shortest time over which usage is told from clocks, days. Common practice, no source.</summary>
    public const double LeastDays = 14;

    private const double DaysAWeek = 7;

    /// <summary>Further ahead than this nobody plans, days.</summary>
    private const double FurthestDays = 3653;

    /// <summary>Usage as far as it is known.</summary>
    /// <param name="stated">What a person has said, or null.</param>
    /// <param name="seen">What the clock has shown, in any order.</param>
    /// <returns>Usage.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="seen"/> is null.</exception>
    public static EngineUsage Of(double? stated, IEnumerable<ClockSeen> seen)
    {
        ArgumentNullException.ThrowIfNull(seen);
        if (stated is > 0)
        {
            return new(stated, UsageSource.Stated);
        }

        ClockSeen[] byDay = [.. seen.OrderBy(s => s.At)];
        if (byDay.Length < 2)
        {
            return new(null, UsageSource.Unknown);
        }

        double days = (byDay[^1].At - byDay[0].At).TotalDays;
        double run = byDay[^1].Clock - byDay[0].Clock;
        return days >= LeastDays && run > 0
            ? new(run / days * DaysAWeek, UsageSource.Estimated)
            : new(null, UsageSource.Unknown);
    }

    /// <summary>The day on which the clock will show a reading.</summary>
    /// <param name="clock">The reading, hours or km.</param>
    /// <param name="last">What the clock showed last.</param>
    /// <returns>The day, UTC; null where usage is not known or the day is more than ten years off.</returns>
    public DateTime? DayOf(double clock, ClockSeen last)
    {
        if (PerWeek is not { } week)
        {
            return null;
        }

        double days = Math.Max(0, clock - last.Clock) / week * DaysAWeek;
        return days <= FurthestDays ? last.At.AddDays(days) : null;
    }
}
