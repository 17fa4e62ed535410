using Shimwright.Domain.Numerics;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Due;

/// <summary>Shims that were fitted, by where they came from.</summary>
/// <param name="Fitted">All.</param>
/// <param name="FromDrawer">From the drawer.</param>
/// <param name="Bought">Bought for the job.</param>
/// <param name="Moved">From another valve of the engine.</param>
public readonly record struct ShimsUsed(int Fitted, int FromDrawer, int Bought, int Moved)
{
    /// <summary>Not as planned, or closed before the source was kept.</summary>
    public int Other => Fitted - FromDrawer - Bought - Moved;
}

/// <summary>What was done in a month, or in the whole year.</summary>
/// <param name="First">The first day.</param>
/// <param name="Jobs">Closed jobs, second rounds among them.</param>
/// <param name="NothingToDo">Of them: no valve changed, all passed.</param>
/// <param name="FirstTime">First rounds that passed at their re-check; null where none was re-checked.</param>
/// <param name="PlannedMinutes">Mean of the minutes that accepted plans counted; null without a plan.</param>
/// <param name="Shims">Shims that were fitted.</param>
/// <param name="Promised">Mean of the chances that plans gave; null without a promise that can be looked at.</param>
/// <param name="Kept">Promises that came true; null without one that can be looked at.</param>
public sealed record YearMonth(
    DateOnly First, int Jobs, int NothingToDo, BinomialShare? FirstTime, double? PlannedMinutes, ShimsUsed Shims, double? Promised, BinomialShare? Kept);

/// <summary>A shop's last twelve months, the running one among them.</summary>
/// <param name="Months">The months, the oldest first.</param>
/// <param name="Whole">All of them together.</param>
public sealed record ShopYear(IReadOnlyList<YearMonth> Months, YearMonth Whole)
{
    /// <summary>How many closed jobs are looked through, the newest first.</summary>
    public const int MostRecords = 10_000;

    private const int MonthsOfAYear = 12;

    /// <summary>Looks back over closed jobs.</summary>
    /// <param name="records">Their records, in any order.</param>
    /// <param name="today">The day that it is.</param>
    /// <param name="day">The day of a moment in UTC, where the bench stands.</param>
    /// <returns>The year.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static ShopYear Of(IReadOnlyList<ScoredRecord> records, DateOnly today, Func<DateTime, DateOnly> day)
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(day);
        DateOnly start = new DateOnly(today.Year, today.Month, 1).AddMonths(1 - MonthsOfAYear), end = start.AddMonths(MonthsOfAYear);
        ILookup<DateOnly, ScoredRecord> byMonth = records.Select(r => (Day: day(r.ClosedAt), Record: r)).Where(r => r.Day >= start && r.Day < end)
            .ToLookup(r => new DateOnly(r.Day.Year, r.Day.Month, 1), r => r.Record);
        return new(
            [.. Enumerable.Range(0, MonthsOfAYear).Select(start.AddMonths).Select(m => MonthOf(m, [.. byMonth[m]]))],
            MonthOf(start, [.. byMonth.SelectMany(m => m)]));
    }

    private static YearMonth MonthOf(DateOnly first, IReadOnlyList<ScoredRecord> records)
    {
        ScoredRecord[] checkedAgain = [.. records.Where(r => r is { IsSecondRound: false, ChangedAreReadAgain: true } && r.Record.Valves.Any(v => v.Change is not null))];
        (double Stated, bool Passed)[] promises = [.. records.Select(Scorecard.PromiseOf).OfType<(double, bool)>()];
        double[] minutes = [.. records.Select(r => r.Record.MinutesPromised).OfType<double>()];
        return new(
            first,
            records.Count,
            records.Count(r => r.Record.IsNothingToDo),
            checkedAgain.Length == 0 ? null : new BinomialShare(checkedAgain.Count(r => r.Record.Pass), checkedAgain.Length),
            minutes.Length == 0 ? null : minutes.Average(),
            ShimsOf([.. records.SelectMany(r => r.Record.Valves).Where(v => v.Change == "fit")]),
            promises.Length == 0 ? null : promises.Average(p => p.Stated),
            promises.Length == 0 ? null : new BinomialShare(promises.Count(p => p.Passed), promises.Length));
    }

    private static ShimsUsed ShimsOf(RecordRow[] fitted)
    {
        int From(string source) => fitted.Count(v => v.Source == source);
        return new(fitted.Length, From("drawer"), From("buy"), From("engine"));
    }
}
