using Shimwright.Bench.Due;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Due;

/// <summary>Where an engine is with its next check.</summary>
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

    /// <summary>The day is past, or the risk is over its limit.</summary>
    Overdue,
}

/// <summary>When an engine is due, in words.</summary>
public static class DueWords
{
    private const double SoonDays = 7;

    /// <summary>Clocks nearer to each other than this are one.</summary>
    private const double Same = 0.05;

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
        DueState.NoCard => "Maker's interval not set",
        DueState.ClockOnly => $"Check by {clocks.Text(forecast!.CheckBy!.Value)}",
        _ when forecast!.CheckBy <= forecast.Clock => $"Due now (already over the risk limit at {clocks.Text(forecast.Clock)})",
        DueState.Overdue => $"Overdue since {local.Day(forecast.DueAt!.Value)} (due at {clocks.Text(forecast.CheckBy!.Value)})",
        _ => $"Check by {local.Day(forecast.DueAt!.Value)}, {In(forecast.DueAt.Value, local)} (at {clocks.Text(forecast.CheckBy!.Value)})",
    };

    /// <summary>The same for a glance: a word or two at the end of a line.</summary>
    public static string Glance(KeptForecast? forecast, LocalTimes local, ClockStyle clocks) => StateOf(forecast, local) switch
    {
        DueState.NotChecked => "not checked",
        DueState.NoCard => "no interval",
        DueState.ClockOnly => $"at {clocks.Text(forecast!.CheckBy!.Value)}",
        DueState.Overdue => forecast!.CheckBy <= forecast.Clock ? "now" : "overdue",
        _ => In(forecast!.DueAt!.Value, local),
    };

    /// <summary>What makes a check due: the risk, or the maker's interval where that ends first.</summary>
    public static string Why(KeptForecast? forecast) => forecast switch
    {
        null => "No closed job",
        { CheckBy: null } => "Add the interval to the card",
        { CheckBy: { } by } when forecast.Curve.Count > 0 && by >= forecast.Curve[^1].Clock - Same => "Maker's interval ends",
        { CheckBy: { } by } when by <= forecast.Clock => $"Risk over {Chances.Mark(forecast.Risk)}",
        _ => $"Risk reaches {Chances.Mark(forecast.Risk)}",
    };

    /// <summary>The same in a few words, for an engine that is overdue or soon due.</summary>
    public static string Briefly(KeptForecast forecast, LocalTimes local)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        return StateOf(forecast, local) == DueState.Overdue ? "Overdue" : $"Due {In(forecast.DueAt!.Value, local)}";
    }

    /// <summary>What is known behind the day.</summary>
    public static string Behind(KeptForecast? forecast, ClockStyle clocks) => forecast switch
    {
        null => "Close a job on this engine to get its next check.",
        { CheckBy: null } => "Put the maker's interval on the card to get the next check.",
        _ => $"Last check at {clocks.Text(forecast.Clock)} ({forecast.Checks} {(forecast.Checks == 1 ? "check" : "checks")} so far). {Usage(forecast.Usage, clocks)}.",
    };

    public static string Usage(EngineUsage usage, ClockStyle clocks)
    {
        ArgumentNullException.ThrowIfNull(usage);
        return usage.Source switch
        {
            UsageSource.Stated => $"Usage {clocks.Text(usage.PerWeek!.Value)} per week",
            UsageSource.Estimated => $"Usage about {clocks.Text(usage.PerWeek!.Value)} per week, from its jobs",
            _ => "Usage not set",
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
