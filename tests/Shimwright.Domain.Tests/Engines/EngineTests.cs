using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Engines;

public class EngineTests
{
    [Fact]
    public void Valves_OneToSixtyFour_AreTaken()
    {
        Assert.Single(Made.Engine(Made.Valve()).Valves);
        Assert.Equal(64, Made.Engine(Many(64)).Valves.Count);
        Assert.Throws<ArgumentOutOfRangeException>("valves", () => Made.Engine());
        Assert.Throws<ArgumentOutOfRangeException>("valves", () => Made.Engine(Many(65)));
    }

    [Fact]
    public void Valves_OneIdTwice_IsRefused()
    {
        ArgumentException refusal = Assert.Throws<ArgumentException>("valves", () => Made.Engine(Made.Valve("I1"), Made.Valve("I1")));
        Assert.StartsWith("Every valve needs an id of its own.", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(2, Made.Engine(Made.Valve("I1"), Made.Valve("i1")).Valves.Count);
    }

    [Fact]
    public void Valves_ListChangedAfterwards_StayAsTheyWere()
    {
        List<Valve> valves = [Made.Valve("I1")];
        var engine = new Engine("Loaner", Made.Bucket, valves);
        valves.Add(Made.Valve("I2"));
        Assert.Single(engine.Valves);
        Assert.False(engine.Valves is Valve[] or List<Valve>);
    }

    [Fact]
    public void AccessGroups_InTheOrderOfTheValves_AreNamedOnce()
    {
        Engine engine = Made.Engine(Made.Valve("I1", access: "b"), Made.Valve("I2", access: "a"), Made.Valve("I3", access: "b"));
        Assert.Equal(["b", "a"], engine.AccessGroups);
    }

    [Fact]
    public void Name_Blank_IsRefused()
    {
        Assert.Throws<ArgumentException>("name", () => new Engine(" ", Made.Bucket, [Made.Valve()]));
        Assert.Throws<ArgumentNullException>("valvetrain", () => new Engine("Loaner", null!, [Made.Valve()]));
        Assert.Throws<ArgumentNullException>("valves", () => new Engine("Loaner", Made.Bucket, null!));
    }

    [Fact]
    public void ClearancePerDegree_UnknownOrANumber_IsKept()
    {
        Assert.Null(Made.Engine(Made.Valve()).ClearancePerDegreeOf(ValveSide.Intake));
        Assert.Equal(-0.001, new Engine("Loaner", Made.Bucket, [Made.Valve()], -0.001).ClearancePerDegreeOf(ValveSide.Intake));
        Refuses.NotANumber("clearancePerDegree", x => new Engine("Loaner", Made.Bucket, [Made.Valve()], x));
    }

    [Fact]
    public void Valve_BlankNamesAndNoCylinder_AreRefused()
    {
        Assert.Throws<ArgumentException>("id", () => new Valve("", 1, ValveSide.Intake, "cover", Made.Band));
        Assert.Throws<ArgumentException>("access", () => new Valve("I1", 1, ValveSide.Intake, "  ", Made.Band));
        Assert.Throws<ArgumentOutOfRangeException>("cylinder", () => new Valve("I1", 0, ValveSide.Intake, "cover", Made.Band));
        Assert.Throws<ArgumentNullException>("band", () => new Valve("I1", 1, ValveSide.Intake, "cover", null!));
    }

    private static IEnumerable<Valve> Many(int count) => Enumerable.Range(1, count).Select(v => Made.Valve($"V{v}"));
}
