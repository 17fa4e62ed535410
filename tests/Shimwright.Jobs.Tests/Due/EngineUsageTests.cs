using Shimwright.Jobs.Due;

namespace Shimwright.Jobs.Tests.Due;

public class EngineUsageTests
{
    private static readonly DateTime Start = new(2026, 3, 2, 9, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void Of_Stated_CountsBeforeWhatTheJobsTell() =>
        Assert.Equal(new EngineUsage(5, UsageSource.Stated), EngineUsage.Of(5, [new(100, Start), new(130, Start.AddDays(21))]));

    [Fact]
    public void Of_ClocksThreeWeeksApart_IsWhatRanInAWeek() =>
        Assert.Equal(new EngineUsage(10, UsageSource.Estimated), EngineUsage.Of(null, [new(130, Start.AddDays(21)), new(100, Start)]));

    [Fact]
    public void Of_TooLittleToTellFrom_IsUnknown()
    {
        EngineUsage unknown = new(null, UsageSource.Unknown);
        Assert.Equal(unknown, EngineUsage.Of(null, []));
        Assert.Equal(unknown, EngineUsage.Of(null, [new(100, Start)]));
        Assert.Equal(unknown, EngineUsage.Of(null, [new(100, Start), new(110, Start.AddDays(13.9))]));
        Assert.Equal(unknown, EngineUsage.Of(null, [new(100, Start), new(100, Start.AddDays(90))]));
        Assert.Equal(unknown, EngineUsage.Of(0, [new(100, Start)]));
    }

    [Fact]
    public void DayOf_UsageKnown_IsWhenTheClockWillShowIt()
    {
        EngineUsage usage = new(7, UsageSource.Stated);
        Assert.Equal(Start.AddDays(12), usage.DayOf(112, new(100, Start)));
        Assert.Equal(Start, usage.DayOf(90, new(100, Start)));
    }

    [Fact]
    public void DayOf_UnknownOrTenYearsOff_IsNoDay()
    {
        Assert.Null(new EngineUsage(null, UsageSource.Unknown).DayOf(112, new(100, Start)));
        Assert.Null(new EngineUsage(0.001, UsageSource.Stated).DayOf(112, new(100, Start)));
    }
}
