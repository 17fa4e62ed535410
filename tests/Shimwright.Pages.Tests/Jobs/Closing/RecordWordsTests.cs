using Shimwright.Bench.Due;
using Shimwright.Jobs.Due;
using Shimwright.Pages.Jobs.Closing;

namespace Shimwright.Pages.Tests.Jobs.Closing;

public class RecordWordsTests
{
    private static readonly DateTime Day = new(2026, 3, 14, 0, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void NextCheck_DayAndClockKnown_SaysBoth() =>
        Assert.Equal("by 141.2 h, about 2026-03-14 as it is used now; until then a chance of at most 10 % that a valve leaves its limits", RecordWords.NextCheck(Forecast(141.2, Day), "h"));

    [Fact]
    public void NextCheck_UseNotKnown_SaysTheClock() => Assert.Equal("by 12500 km; until then a chance of at most 10 % that a valve leaves its limits", RecordWords.NextCheck(Forecast(12_500, null), "km"));

    [Fact]
    public void NextCheck_RiskIsThereAlready_SaysSoon() => Assert.StartsWith("soon:", RecordWords.NextCheck(Forecast(118, Day), "h"), StringComparison.Ordinal);

    [Fact]
    public void NextCheck_CardWithoutWear_IsSilent() => Assert.Equal("", RecordWords.NextCheck(Forecast(null, null), "h"));

    private static KeptForecast Forecast(double? checkBy, DateTime? due) =>
        new(1, 118, checkBy, false, new ClockSeen(118, Day), new EngineUsage(null, UsageSource.Unknown), due, 0.1, []);
}
