using Shimwright.Jobs.Due;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Tests.Due;

/// <summary>The year of a shop against counts made by hand.</summary>
public class ShopYearTests
{
    private static readonly DateOnly Today = new(2026, 11, 30);

    /// <summary>
    /// By hand: November has four first rounds felt again, three of which passed, and beside them a second round, one closed without a re-check and one with
    /// nothing to do: 7 jobs. Shims: four first rounds fit one of the drawer each, the second round one that was bought, the one without a re-check one moved.
    /// </summary>
    [Fact]
    public void Of_AMonth_IsWhatWasCountedByHand()
    {
        ScoredRecord[] records =
        [
            At("2026-11-02", Job(0.9, 40, pass: true)), At("2026-11-03", Job(0.8, 50, pass: true)), At("2026-11-03", Job(0.9, 60, pass: true)), At("2026-11-20", Job(0.6, 30, pass: false)),
            At("2026-11-21", Job(0.95, 20, pass: true, source: "buy"), isSecond: true), At("2026-11-22", Job(0.9, 100, pass: false, source: "engine", felt: false)), At("2026-11-30", NothingToDo()),
        ];
        ShopYear year = ShopYear.Of(records, Today, DateOnly.FromDateTime);
        YearMonth month = year.Months[11];
        Assert.Equal((new DateOnly(2026, 11, 1), 7, 1), (month.First, month.Jobs, month.NothingToDo));
        Assert.Equal((3, 4), (month.FirstTime!.Value.Count, month.FirstTime.Value.Trials));
        // Clopper and Pearson's interval of 3 of 4 as R's binom.test(3, 4) gives it, from memory.
        Assert.Equal(0.1941204, month.FirstTime.Value.Low, 1e-6);
        Assert.Equal(0.9936905, month.FirstTime.Value.High, 1e-6);
        Assert.Equal(300.0 / 6, month.PlannedMinutes!.Value, 1e-12);
        Assert.Equal(new ShimsUsed(6, 4, 1, 1), month.Shims);
        Assert.Equal(0, month.Shims.Other);
        Assert.Equal(0.8, month.Promised!.Value, 1e-12);
        Assert.Equal((3, 4), (month.Kept!.Value.Count, month.Kept.Value.Trials));
        Assert.Equal(month with { First = year.Whole.First }, year.Whole);
        Assert.All(year.Months.Take(11), m => Assert.True(m is { Jobs: 0, FirstTime: null, PlannedMinutes: null, Kept: null }));
    }

    [Fact]
    public void Of_DaysAtTheEdges_AreThoseWhereTheBenchStands()
    {
        // Two hours east of UTC: ten in the evening is the next day.
        static DateOnly East(DateTime at) => DateOnly.FromDateTime(at.AddHours(2));
        ScoredRecord[] records = [At("2025-11-30T21:59", NothingToDo()), At("2025-11-30T22:00", NothingToDo()), At("2026-11-30T21:59", NothingToDo()), At("2026-10-31T22:00", NothingToDo())];
        ShopYear year = ShopYear.Of(records, Today, East);
        Assert.Equal([1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2], year.Months.Select(m => m.Jobs));
        Assert.Equal(3, year.Whole.Jobs);
        Assert.Equal((new DateOnly(2025, 12, 1), new DateOnly(2026, 11, 1)), (year.Months[0].First, year.Months[11].First));
    }

    [Fact]
    public void Of_ShimsFromElsewhereThanPlanned_AreOthers()
    {
        ShopYear year = ShopYear.Of([At("2026-11-02", Job(0.9, 40, pass: true, source: null)), At("2026-11-02", Job(0.9, 40, pass: true))], Today, DateOnly.FromDateTime);
        Assert.Equal((2, 1), (year.Whole.Shims.Fitted, year.Whole.Shims.Other));
    }

    private static ScoredRecord At(string when, JobRecord record, bool isSecond = false) =>
        new(record, isSecond) { ClosedAt = DateTime.Parse(when, System.Globalization.CultureInfo.InvariantCulture) };

    private static JobRecord NothingToDo() => Of(null, null, true, Row(null, null, felt: false, pass: true));

    private static JobRecord Job(double promised, double minutes, bool pass, string? source = "drawer", bool felt = true) => Of(promised, minutes, pass, Row("fit", source, felt, pass));

    private static JobRecord Of(double? promised, double? minutes, bool pass, RecordRow row) =>
        new("Flood pump 7", 118, 119, "h", 20, null, [], promised, minutes, [], pass, [row], [], [], "", "", "");

    private static RecordRow Row(string? change, string? source, bool felt, bool pass)
    {
        EstimateRow after = new(0.15, 0.003, 0.14, 0.16, pass ? 0.99 : 0.1, pass ? "in" : "out");
        return new("I1", 1, "intake", [0.1, 0.2], after, change, null, null, change is null ? null : new(2.5, "micrometer"), null, felt ? after : null, felt, pass) { Source = source };
    }
}
