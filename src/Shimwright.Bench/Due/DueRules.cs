namespace Shimwright.Bench.Due;

/// <summary>What may be said of an engine's use.</summary>
public static class DueRules
{
    /// <summary>Refuses a usage that is none.</summary>
    /// <param name="perWeek">Hours or km a week, or null where nobody can say.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is not above 0, or no number.</exception>
    public static void CheckUsage(double? perWeek)
    {
        if (perWeek is { } week && !(double.IsFinite(week) && week > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(perWeek), perWeek, "Usage is above 0, or null where nobody can say.");
        }
    }
}
