using Shimwright.Bench.Due;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Records;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Tests.Records;

public class RecordWordsTests
{
    private static readonly LocalTimes Local = new(TimeZoneInfo.Utc, default);

    private static readonly DateTime Day = new(2026, 3, 14, 0, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void NextCheck_DayAndClockKnown_SaysBoth() =>
        Assert.Equal("by 141.2 h, about 2026-03-14 as it is used now; until then a chance of at most 10 % that a valve leaves its limits", RecordWords.NextCheck(Forecast(141.2, Day), "h", Local));

    [Fact]
    public void NextCheck_UseNotKnown_SaysTheClock() => Assert.Equal("by 12500 km; until then a chance of at most 10 % that a valve leaves its limits", RecordWords.NextCheck(Forecast(12_500, null), "km", Local));

    [Fact]
    public void NextCheck_RiskIsThereAlready_SaysNow() => Assert.StartsWith("due now:", RecordWords.NextCheck(Forecast(118, Day), "h", Local), StringComparison.Ordinal);

    [Fact]
    public void NextCheck_CardWithoutWear_IsSilent() => Assert.Equal("", RecordWords.NextCheck(Forecast(null, null), "h", Local));

    /// <summary>A record says no more than was shown: the chance, and the most doubtful valve.</summary>
    [Fact]
    public void Summary_AllPass_SaysTheChanceAndTheMostDoubtfulValve() => Assert.Equal(
        "1 of 2 valves was adjusted. Checked, passes. Chance that all 2 valves are within the maker's limits: 83.1 %. Most doubtful: E1, 84.2 %.",
        RecordWords.Summary(Record(Row("I1", 0.987, passes: true), Row("E1", 0.842, passes: true) with { Change = "fit" }) with { ChanceAll = 0.831 }));

    /// <summary>A record from before the chance of all was kept.</summary>
    [Fact]
    public void Summary_OlderRecord_SaysTheMostDoubtfulValve() => Assert.Equal(
        "Checked, nothing to do. Most doubtful: I1, 52.0 %.",
        RecordWords.Summary(Record(Row("I1", 0.52, passes: true), Row("E1", 0.9, passes: true))));

    [Fact]
    public void Summary_SomeDoNotPass_NamesThem() => Assert.Equal(
        "No valve was changed. I1, E1 do not pass: see below before the engine is run.",
        RecordWords.Summary(Record(Row("I1", 0.52, passes: false), Row("E1", null, passes: false), Row("E2", 0.99, passes: true))));

    [Theory]
    [InlineData(0.9, true, false, "passes")]
    [InlineData(0.9, false, true, "felt too little")]
    [InlineData(0.7, false, false, "does not pass")]
    [InlineData(null, false, false, "not measured")]
    public void Verdict_EachRow_SaysWhyItDoesNotPass(double? inBand, bool passes, bool feltTooLittle, string words) =>
        Assert.Equal(words, RecordWords.Verdict(Row("I1", inBand, passes) with { FeltTooLittle = feltTooLittle }));

    [Fact]
    public void Verdict_ChangedAndNotFelt_SaysSo() =>
        Assert.Equal("not checked again", RecordWords.Verdict(Row("I1", null, passes: false) with { Change = "fit" }));

    private static RecordRow Row(string valve, double? inBand, bool passes)
    {
        EstimateRow? after = inBand is { } chance ? new(0.15, 0.01, 0.13, 0.17, chance, "in") : null;
        return new(valve, 1, "intake", [0.12, 0.18], after, null, null, null, null, null, after, ReadAgain: false, passes);
    }

    private static JobRecord Record(params RecordRow[] rows) =>
        new("Flood pump 7", 118, 119, "h", 20, null, [], null, null, [], rows.All(r => r.Passes), rows, [], [], "", "", "");

    private static KeptForecast Forecast(double? checkBy, DateTime? due) =>
        new(1, 118, checkBy, false, new ClockSeen(118, Day), new EngineUsage(null, UsageSource.Unknown), due, 0.1, []);
}
