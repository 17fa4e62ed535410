using Shimwright.Bench.Due;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Due;

/// <summary>How an engine stands with its next check.</summary>
public enum DueState
{
    /// <summary>No job on it was closed yet.</summary>
    NotChecked,

    /// <summary>The card does not say what wear is usual.</summary>
    NoCard,

    /// <summary>The clock by which to check is known, the day is not.</summary>
    ClockOnly,

    /// <summary>The day is to come.</summary>
    Coming,

    /// <summary>The day is within a week.</summary>
    Soon,

    /// <summary>The day is past, or the risk is there already.</summary>
    Overdue,
}

/// <summary>When an engine is due, in words.</summary>
public static class DueWords
{
    private const double SoonDays = 7;

    public static DueState StateOf(KeptForecast? forecast, LocalTimes local) => forecast switch
    {
        null => DueState.NotChecked,
        { CheckBy: null } => DueState.NoCard,
        { CheckBy: { } by } when by <= forecast.Clock => DueState.Overdue,
        { DueAt: null } => DueState.ClockOnly,
        { DueAt: { } due } => (local.Date(due) - local.Today).TotalDays switch { < 0 => DueState.Overdue, <= SoonDays => DueState.Soon, _ => DueState.Coming },
    };

    public static string When(KeptForecast? forecast, LocalTimes local, ClockStyle clocks) => StateOf(forecast, local) switch
    {
        DueState.NotChecked => "Not checked yet",
        DueState.NoCard => "Its card does not say what wear is usual",
        DueState.ClockOnly => $"By {clocks.Text(forecast!.CheckBy!.Value)} on its clock",
        _ when forecast!.CheckBy <= forecast.Clock => $"Due now: the risk was there at {clocks.Text(forecast.Clock)} already",
        DueState.Overdue => $"Overdue since {local.Day(forecast.DueAt!.Value)}, by {clocks.Text(forecast.CheckBy!.Value)}",
        _ => $"{local.Day(forecast.DueAt!.Value)}, {In(forecast.DueAt.Value, local)}, by {clocks.Text(forecast.CheckBy!.Value)}",
    };

    /// <summary>What stands behind the day.</summary>
    public static string Behind(KeptForecast? forecast, ClockStyle clocks) => forecast switch
    {
        null => "Close a job on it and its next check is worked out.",
        { CheckBy: null } => "Put the maker's interval on the card, and the next check is worked out from its clearances.",
        _ => $"Checked {(forecast.Checks == 1 ? "once" : $"{forecast.Checks} times")}, last at {clocks.Text(forecast.Clock)}; {Usage(forecast.Usage, clocks)}.",
    };

    public static string Usage(EngineUsage usage, ClockStyle clocks)
    {
        ArgumentNullException.ThrowIfNull(usage);
        return usage.Source switch
        {
            UsageSource.Stated => $"used {clocks.Text(usage.PerWeek!.Value)} a week",
            UsageSource.Estimated => $"used about {clocks.Text(usage.PerWeek!.Value)} a week by its jobs",
            _ => "how much it is used is not known",
        };
    }

    private static string In(DateTime due, LocalTimes local) => (int)(local.Date(due) - local.Today).TotalDays switch
    {
        0 => "today",
        1 => "tomorrow",
        < 60 and var days => $"in {days} days",
        var days => $"in {days / 7} weeks",
    };
}
