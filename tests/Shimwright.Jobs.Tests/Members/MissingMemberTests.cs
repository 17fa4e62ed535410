using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Members;

public class MissingMemberTests
{
    /// <summary>What the format requires, wherever the object that it belongs to is there.</summary>
    private static readonly string[] Required =
    [
        "$.format", "$.engine", "$.engine.name", "$.engine.valvetrain", "$.engine.valves",
        "$.engine.valves[0].id", "$.engine.valves[0].cylinder", "$.engine.valves[0].side", "$.engine.valves[0].access", "$.engine.valves[0].band",
        "$.engine.valves[0].events.opens", "$.engine.valves[0].events.closes",
        "$.engine.valves[0].alsoOffHeel[0].from", "$.engine.valves[0].alsoOffHeel[0].length",
        "$.engine.layout.firingOrder", "$.engine.layout.intake.opensBtdc", "$.engine.layout.intake.closesAbdc",
        "$.engine.layout.exhaust.opensBbdc", "$.engine.layout.exhaust.closesAtdc", "$.engine.wear.interval",
        "$.engine.decompressor.valves", "$.engine.decompressor.liftsWhenTurned",
        "$.check", "$.check.clock", "$.check.readings",
        "$.check.readings[0].valve", "$.check.readings[0].trials[0].blade", "$.check.readings[0].trials[0].feel",
        "$.check.fitted[0].valve", "$.check.fitted[0].thickness", "$.check.fitted[0].by",
        "$.recheck.changed[0].valve", "$.recheck.changed[0].from", "$.recheck.changed[0].to",
        "$.recheck.changed[0].from.thickness", "$.recheck.changed[0].from.by", "$.recheck.changed[0].to.thickness", "$.recheck.changed[0].to.by",
        "$.recheck.readings[0].valve", "$.recheck.readings[0].trials[0].blade", "$.recheck.readings[0].trials[0].feel",
        "$.stock.drawer[0].thickness", "$.stock.drawer[0].by", "$.stock.buy.from", "$.stock.buy.to", "$.stock.buy.step",
    ];

    /// <summary>Members that may be left out only together with a neighbour: the rules about them have tests of their own.</summary>
    private static readonly string[] Bound = ["$.check.readings[0].trials", "$.check.readings[1].value", "$.recheck.readings[0].value"];

    public static TheoryData<string> RequiredMembers() => [.. Required];

    public static TheoryData<string> FreeMembers() =>
    [
        .. Sample.Shims().Paths().Where(p => !p.EndsWith(']') || p.EndsWith("']", StringComparison.Ordinal))
            .Where(p => !Required.Contains(FirstOfAList(p)) && !Bound.Contains(p)),
    ];

    [Theory]
    [MemberData(nameof(RequiredMembers))]
    public void Read_RequiredMemberLeftOut_IsMissedAtItsPath(string path) =>
        Reading.Notes(Sample.Shims().Remove(path), path, "missing; this member is required");

    [Theory]
    [MemberData(nameof(FreeMembers))]
    public void Read_FreeMemberLeftOut_IsNotMissed(string path) => Reading.Takes(Sample.Shims().Remove(path));

    [Fact]
    public void Read_NothingButBraces_MissesTheThreeSections()
    {
        ParsedJob reading = Reading.Of("{}");
        Assert.Equal(["$.format", "$.engine", "$.check"], reading.Problems.Select(p => p.Path));
        Assert.All(reading.Problems, p => Assert.Equal("missing", p.Found));
    }

    [Fact]
    public void Read_ScrewWithoutPitch_IsRefused() => Reading.Refuses(
        Sample.Screws().Remove("$.engine.pitch"), "$.engine.pitch", "missing; a screw needs its pitch");

    [Fact]
    public void Read_ScrewChangedWithoutTurns_IsRefused() => Reading.Refuses(
        Sample.Screws().Remove("$.recheck.changed[0].turns"), "$.recheck.changed[0].turns", "missing");

    /// <summary>The path with every list index made 0, so that the list above need name only the first of each.</summary>
    private static string FirstOfAList(string path) => path.Replace("[1]", "[0]", StringComparison.Ordinal);
}
