using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.CrankStops;

/// <summary>The rules of nine, thirteen and seventeen: valves numbered front to rear, fully open and to be set.</summary>
[Proof(Formulas.Thumb, Evidence.Published, "The rules of nine, thirteen and seventeen.")]
public class PairRuleTests
{
    private const string FourMirrored = "EIIEEIIE";

    /// <summary>An engineering glossary (dummett.net, "Rocker adjustment"): fully open, and the valve that is set then.</summary>
    public static TheoryData<int, int> RuleOfNine { get; } = new()
    {
        { 8, 1 }, { 6, 3 }, { 4, 5 }, { 7, 2 }, { 1, 8 }, { 3, 6 }, { 5, 4 }, { 2, 7 },
    };

    [Theory]
    [MemberData(nameof(RuleOfNine))]
    public void FullyOpen_PublishedPair_LeavesTheOtherInTheMiddleOfItsHeel(int open, int set)
    {
        CrankLayout layout = Head(FourMirrored, [1, 3, 4, 2]);
        HeelArc heel = Assert.Single(layout.HeelOf(layout.Valves[set - 1]));
        Assert.Equal(heel.Length / 2, heel.SlackAt(ThumbRules.FullyOpen(layout, layout.Valves[open - 1])), 1e-9);
        Assert.Equal(9, open + set);
    }

    // Nine: the glossary. Thirteen for an in-line six, and seventeen for a straight eight with its firing order: from memory.
    [Theory]
    [InlineData(9, FourMirrored, 1, 3, 4, 2)]
    [InlineData(9, FourMirrored, 1, 2, 4, 3)]
    [InlineData(13, "EIIEEIIEEIIE", 1, 5, 3, 6, 2, 4)]
    [InlineData(17, "EIIEEIIEEIIEEIIE", 1, 6, 2, 5, 8, 3, 7, 4)]
    public void PairSum_MirroredHeadOfRunningMates_IsThePublishedSum(int sum, string head, params int[] order)
    {
        Assert.Equal(sum, ThumbRules.PairSum(Head(head, order)));
        Assert.Equal(sum, ThumbRules.PairSum(Head(head, order, PublishedTable.LongOpen)));
    }

    // Derived: with all exhausts in front the partner is the other kind of valve, 20 degrees past its closing.
    [Fact]
    public void PairSum_HeadThatIsNoMirror_HasNone()
    {
        CrankLayout layout = Head("EIEIEIEI", [1, 3, 4, 2]);
        Assert.Null(ThumbRules.PairSum(layout));
        Assert.NotEqual(layout.Valves[0].Side, layout.Valves[7].Side);

        CrankLayout withoutRamp = Head("EIEIEIEI", [1, 3, 4, 2], ramp: 0);
        double open = ThumbRules.FullyOpen(withoutRamp, withoutRamp.Valves[0]);
        Assert.Equal(20, withoutRamp.HeelOf(withoutRamp.Valves[7]).Max(arc => arc.SlackAt(open)), 1e-9);
        Assert.True(Head("EIEIEIEI", [1, 3, 4, 2], ramp: 21) is var ramp && ramp.HeelOf(ramp.Valves[7]).Max(arc => arc.SlackAt(open)) < 0);
    }

    // The mirror cylinders of an in-line four 1-2-3-4 (an order made up) are not running mates.
    [Fact]
    public void PairSum_MirrorCylindersThatAreNoMates_HasNone() => Assert.Null(ThumbRules.PairSum(Head(FourMirrored, [1, 2, 3, 4])));

    // From memory: as the exhaust begins to open set the intake; with the intake past full lift and beginning to close set
    // the exhaust. The model leaves 220 degrees of heel and more at the exhaust's opening and at the intake's closing.
    [Theory]
    [InlineData(1)]
    [InlineData(1, 3, 2)]
    [InlineData(1, 3, 4, 2)]
    [InlineData(1, 2, 4, 5, 3)]
    public void OwnCylinderRuleHolds_PublishedForAnyCylinder_Holds(params int[] order)
    {
        foreach ((CamEvents Intake, CamEvents Exhaust) events in new[] { PublishedTable.Typical, PublishedTable.LongOpen })
        {
            Assert.True(ThumbRules.OwnCylinderRuleHolds(new PublishedTable("", order, []).Layout(events, ramp: 20)));
        }

        CrankLayout layout = new PublishedTable("", order, []).Layout(PublishedTable.Typical);
        foreach (int cylinder in order)
        {
            double fires = layout.FiresAt(cylinder);
            Assert.Equal(220, PublishedTable.SlackAt(layout, cylinder, ValveSide.Intake, fires + 130), 1e-9);
            Assert.Equal(220, PublishedTable.SlackAt(layout, cylinder, ValveSide.Exhaust, fires + 590), 1e-9);
        }
    }

    private static CrankLayout Head(string sides, int[] order, (CamEvents Intake, CamEvents Exhaust)? events = null, double ramp = 20)
    {
        (CamEvents intake, CamEvents exhaust) = events ?? PublishedTable.Typical;
        return new CrankLayout(
            order,
            null,
            [.. sides.Index().Select(s => s.Item == 'I'
                ? new TimedValve($"{s.Index + 1}", 1 + (s.Index / 2), ValveSide.Intake, intake, [])
                : new TimedValve($"{s.Index + 1}", 1 + (s.Index / 2), ValveSide.Exhaust, exhaust, []))],
            ramp);
    }
}
