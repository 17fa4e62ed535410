using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Jobs.Readings;

namespace Shimwright.Pages.Tests.Jobs.Readings;

public class ReadingRoundTests
{
    private static readonly StopsResult TwoStops = new(
        "", [new(0, 0, [new("I1", 90), new("E2", 90)], "start", []), new(360, 360, [new("I2", 90), new("E1", 90)], "turn", [])], [], []);

    [Fact]
    public void Select_AnIdOfTheEngine_IsThatValve() => Assert.Equal("E1", Round(null, "", "", "", "").Select("E1").Valve.Id);

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("Q9")]
    public void Select_NoValveOfTheEngine_IsTheOneThatTellsMost(string? id) =>
        Assert.Equal("E1", Round("E1", "", "", "", "").Select(id).Valve.Id);

    [Fact]
    public void Select_WithoutASuggestion_IsTheFirstUnread() => Assert.Equal("I2", Round(null, "in", "", "", "").Select(null).Valve.Id);

    /// <summary>The crank is not turned back and forth: while a valve of the first stop is open, the suggestion of another stop waits.</summary>
    [Fact]
    public void Select_ASuggestionAtAnotherStop_WaitsForThisOne() =>
        Assert.Equal("I1", Round("I2", TwoStops, "", "", "", "").Select(null).Valve.Id);

    [Fact]
    public void After_TheFirst_StaysAtTheStop()
    {
        ReadingRound round = Round(null, TwoStops, "in", "", "", "");
        Assert.Equal("E2", round.After(round.Select("I1"))!.Valve.Id);
    }

    [Fact]
    public void After_AllOfAStop_GoesOnToTheNext()
    {
        ReadingRound round = Round(null, TwoStops, "in", "", "", "out");
        Assert.Equal("I2", round.After(round.Select("E2"))!.Valve.Id);
        Assert.Equal(2, round.StopOf(round.Select("I2"))!.Number);
    }

    [Fact]
    public void After_AllAreRead_IsTheUnsettledOneElseNothing()
    {
        ReadingRound unsettled = Round("E1", "in", "in", "unsettled", "out");
        Assert.Equal("E1", unsettled.After(unsettled.Select("I1"))!.Valve.Id);
        ReadingRound settled = Round(null, "in", "in", "in", "out");
        Assert.Null(settled.After(settled.Select("I1")));
        Assert.Equal("I1", settled.Select(null).Valve.Id);
    }

    /// <summary>The valve at hand is the one that tells most; another is not settled either.</summary>
    [Fact]
    public void After_TheTellingOne_IsAnotherThatIsNotSettled()
    {
        ReadingRound round = Round("E1", "in", "unsettled", "unsettled", "out");
        Assert.Equal("I2", round.After(round.Select("E1"))!.Valve.Id);
    }

    [Fact]
    public void StopOf_WithoutStops_IsUnknown() => Assert.Null(Round(null, "", "", "", "").StopOf(Round(null, "", "", "", "").Valves[0]));

    [Fact]
    public void Left_CountsWhatTheRoundWaitsFor() => Assert.Equal(2, Round(null, "in", "", "", "out").Left);

    private static ReadingRound Round(string? telling, params string[] statuses) => Round(telling, null, statuses);

    /// <summary>I1, I2, E1, E2 with a status each; blank where nothing was read.</summary>
    private static ReadingRound Round(string? telling, StopsResult? stops, params string[] statuses)
    {
        string[] ids = ["I1", "I2", "E1", "E2"];
        return new(
            SheetPart.Check,
            [.. ids.Zip(statuses, (id, status) => new RoundValve(
                new Valve(id, 1, id[0] == 'I' ? ValveSide.Intake : ValveSide.Exhaust, "cover", new ClearanceBand(0.1, 0.2)),
                new EstimateRow(0.15, 0.01, 0.13, 0.17, 0.9, status.Length == 0 ? "unsettled" : status),
                null, null,
                status.Length == 0 ? [] : [new JobEntry(1, Guid.NewGuid(), "d", default, new BladeTried(SheetPart.Check, id, 0.15, 1, "light"))],
                true, status == "unsettled" ? 0.13 : null))],
            stops,
            null,
            telling);
    }
}
