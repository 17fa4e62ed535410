using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.CrankStops;

/// <summary>Published crank positions against the heel arcs and the plan; where each was published stands in PublishedTables.</summary>
[Proof(Formulas.Stops, Evidence.Published, "Printed tables of crank positions; sources in PublishedTables.")]
public class PositionTableTests
{
    public static TheoryData<PublishedTable> All { get; } = [.. PublishedTables.All];

    /// <summary>Margins at the published positions with no ramp: derived from the tables and the two sets of events by hand.</summary>
    public static TheoryData<PublishedTable, double, double> Margins { get; } = new()
    {
        { PublishedTables.InlineFour, 130, 109 },
        { PublishedTables.InlineSix, 110, 75 },
        { PublishedTables.VeeEightFourPositions, 40, 19 },
        { PublishedTables.VeeEightA, 80, 45 },
    };

    /// <summary>Tables with no more stops than are needed, every valve listed where it has most slack.</summary>
    public static TheoryData<PublishedTable> TwoStops { get; } =
    [
        PublishedTables.InlineFour, PublishedTables.InlineSix, PublishedTables.VeeEightA,
        PublishedTables.VeeEightB, PublishedTables.VeeSixTwoPositions,
    ];

    /// <summary>Tables that stop more often than is needed, and how often they do.</summary>
    public static TheoryData<PublishedTable, int> MoreThanNeeded { get; } = new()
    {
        { PublishedTables.VeeEightFourPositions, 4 },
        { PublishedTables.VeeSixThreePositions, 3 },
        { PublishedTables.RadialEighteen, 18 },
    };

    [Theory]
    [MemberData(nameof(All))]
    public void HeelOf_EveryPublishedValve_IsOnItsHeelAtItsPosition(PublishedTable table)
    {
        Assert.True(table.Margin(PublishedTable.Typical) > 0);
        Assert.True(table.Margin(PublishedTable.LongOpen) > 0);
    }

    [Theory]
    [MemberData(nameof(Margins))]
    public void HeelOf_PublishedPositions_HaveTheirMargins(PublishedTable table, double typical, double longOpen)
    {
        Assert.Equal(typical, table.Margin(PublishedTable.Typical), 1e-9);
        Assert.Equal(longOpen, table.Margin(PublishedTable.LongOpen), 1e-9);
    }

    // From memory, its margin derived by hand.
    [Fact]
    public void HeelOf_RememberedPositions_HaveTheirMargin() =>
        Assert.Equal(80, PublishedTables.VeeEightB.Margin(PublishedTable.Typical), 1e-9);

    [Theory]
    [MemberData(nameof(All))]
    public void For_PublishedLayout_NeedsNoMoreStopsThanPublished(PublishedTable table)
    {
        Assert.Empty(table.Contradictions());
        foreach ((CamEvents Intake, CamEvents Exhaust) events in new[] { PublishedTable.Typical, PublishedTable.LongOpen })
        {
            foreach (bool anywhere in new[] { false, true })
            {
                StopPlan plan = StopPlan.For(table.Layout(events), anywhere)!;
                Assert.InRange(plan.Stops.Count, 1, table.Positions.Count);
                if (plan.Stops.Count == table.Positions.Count)
                {
                    Assert.True(plan.Stops.SelectMany(s => s.Valves).Min(v => v.Slack) >= table.Margin(events) - 1e-9);
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(TwoStops))]
    public void For_PublishedLayout_IsThePublishedTable(PublishedTable table)
    {
        CrankLayout layout = table.Layout(PublishedTable.Typical);
        Assert.Equal(table.Words(), PublishedTable.Words(StopPlan.For(layout, anywhere: false)!, layout));
    }

    // Each valve where it has most slack: against the remembered table only the exhaust valves of B1 and B6 change
    // places, which stand 70 degrees from the ends of their heels then and not 50.
    [Fact]
    public void For_VeeTwelve_IsThePublishedTableButForTwoValves()
    {
        CrankLayout layout = PublishedTables.VeeTwelve.Layout(PublishedTable.Typical);
        StopPlan plan = StopPlan.For(layout, anywhere: false)!;
        Assert.Equal([0, 360], plan.Stops.Select(s => s.Angle));
        string[] published = [.. PublishedTables.VeeTwelve.Words()];
        string[] planned = [.. PublishedTable.Words(plan, layout)];
        Assert.Equal(["E7"], planned[0].Split(' ').Except(published[0].Split(' ')));
        Assert.Equal(["E12"], published[0].Split(' ').Except(planned[0].Split(' ')));
        Assert.Equal([70, 50], new[] { 0, 360 }.Select(angle => PublishedTable.SlackAt(layout, 7, ValveSide.Exhaust, angle)));
        Assert.Equal([50, 70], new[] { 0, 360 }.Select(angle => PublishedTable.SlackAt(layout, 12, ValveSide.Exhaust, angle)));
    }

    [Theory]
    [MemberData(nameof(MoreThanNeeded))]
    public void For_TableWithMoreStops_DoesWithTwo(PublishedTable table, int published)
    {
        Assert.Equal(published, table.Positions.Count);
        Assert.Equal(2, StopPlan.For(table.Layout(PublishedTable.Typical), anywhere: false)!.Stops.Count);
    }

    // TM 5-3895-385-23-2, item 0326, as stored: columns 1,3 and 1,2 at the first position, 3,4 and 2,4 at the second. Whichever column
    // is the intake, two valves stand there twice and two not at all; the heels say at which of the two positions they are misprints.
    [Theory]
    [InlineData(new[] { 1, 3 }, new[] { 1, 2 }, new[] { 3, 4 }, new[] { 2, 4 }, 3, 2, 0)]
    [InlineData(new[] { 1, 2 }, new[] { 1, 3 }, new[] { 2, 4 }, new[] { 3, 4 }, 2, 3, 360)]
    public void HeelOf_ValvesThatATableNamesTwice_AreOffTheirHeelsWhereItIsAMisprint(
        int[] intake, int[] exhaust, int[] intakeThen, int[] exhaustThen, int twiceIntake, int twiceExhaust, double misprint)
    {
        var table = new PublishedTable("as stored", [1, 3, 4, 2], [new(0, intake, exhaust), new(360, intakeThen, exhaustThen)]);
        Assert.Equal(
            [(ValveSide.Intake, twiceIntake), (ValveSide.Exhaust, twiceExhaust)],
            table.NamedTwice());
        CrankLayout layout = table.Layout(PublishedTable.LongOpen);
        Assert.All(table.NamedTwice(), v => Assert.Equal(
            [misprint], new[] { 0.0, 360 }.Where(angle => PublishedTable.SlackAt(layout, v.Cylinder, v.Side, angle) < 0)));
    }

    // One cylinder at a time is 720/N apart: TM 5-4310-354-14, in-line four 1-2-4-3. Two cylinders at 180 are uneven (0, then
    // 180), a 90-degree V-twin has its second at 270, a 360-degree twin at 360: geometry.
    [Theory]
    [InlineData(new[] { 1, 2, 4, 3 }, null, new double[] { 0, 180, 360, 540 })]
    [InlineData(new[] { 1, 2 }, new double[] { 0, 180 }, new double[] { 0, 180 })]
    [InlineData(new[] { 1, 2 }, new double[] { 0, 270 }, new double[] { 0, 270 })]
    [InlineData(new[] { 1, 2 }, new double[] { 0, 360 }, new double[] { 0, 360 })]
    public void FiresAt_OneCylinderAtATime_HasBothItsValvesOnTheHeel(int[] order, double[]? angles, double[] expected)
    {
        CrankLayout even = new PublishedTable("", order, []).Layout(PublishedTable.LongOpen);
        CrankLayout layout = new(order, angles, even.Valves, 20);
        Assert.Equal(expected, order.Select(layout.FiresAt));
        Assert.All(layout.Valves, v => Assert.True(PublishedTable.SlackAt(layout, v.Cylinder, v.Side, layout.FiresAt(v.Cylinder)) >= 80));
    }

    // TM 5-4310-386-14 p. 5-172, single cylinder: to overlap, then 360 degrees more.
    [Fact]
    public void For_Single_IsAFullTurnFromOverlap()
    {
        CrankLayout layout = new PublishedTable("", [1], []).Layout(PublishedTable.LongOpen, ramp: 20);
        Assert.Equal(["0: I1 E1"], PublishedTable.Words(StopPlan.For(layout, anywhere: false)!, layout));
        Assert.All(layout.Valves, v => Assert.True(PublishedTable.SlackAt(layout, 1, v.Side, 360) < 0));
    }
}
