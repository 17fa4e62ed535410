using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.CrankStops;

/// <summary>
/// A coarse rule, derived from the published tables: with φ the crank degrees past a cylinder's own compression TDC, folded
/// into (-360, 360], at 0 both of its valves may be set, above 0 the intake only, below 0 the exhaust only, at 360 none.
/// </summary>
[Proof(Formulas.Stops, Evidence.Published, "A coarse rule derived from printed tables.")]
public class CoarseRuleTests
{
    public static TheoryData<PublishedTable> Reproduced { get; } =
        [PublishedTables.InlineFour, PublishedTables.InlineSix, PublishedTables.VeeEightA, PublishedTables.VeeEightB];

    public static TheoryData<PublishedTable> All { get; } = [.. PublishedTables.All];

    [Theory]
    [MemberData(nameof(Reproduced))]
    public void CoarseRule_TwoInlineAndTwoVeeEightTables_AreReproduced(PublishedTable table)
    {
        CrankLayout layout = table.Layout(PublishedTable.Typical);
        foreach (PublishedPosition position in table.Positions)
        {
            Assert.Equal(table.FiringOrder.Where(c => Phi(layout, c, position.Angle) is >= 0 and < 360).Order(), position.Intake.Order());
            Assert.Equal(table.FiringOrder.Where(c => Phi(layout, c, position.Angle) is > -360 and <= 0).Order(), position.Exhaust.Order());
        }
    }

    // The heel arcs know it too: on the dead centres of all published layouts a valve that the rule allows is on its heel.
    [Theory]
    [MemberData(nameof(All))]
    public void HeelOf_WhereTheCoarseRuleAllowsAValve_IsOnItsHeel(PublishedTable table)
    {
        CrankLayout layout = table.Layout(PublishedTable.Typical);
        foreach (double angle in table.FiringOrder.Select(layout.FiresAt))
        {
            foreach (int cylinder in table.FiringOrder)
            {
                double phi = Phi(layout, cylinder, angle);
                Assert.True(phi is not (>= 0 and < 360) || PublishedTable.SlackAt(layout, cylinder, ValveSide.Intake, angle) > 0);
                Assert.True(phi is not (> -360 and <= 0) || PublishedTable.SlackAt(layout, cylinder, ValveSide.Exhaust, angle) > 0);
                Assert.True(phi < 360 || PublishedTable.SlackAt(layout, cylinder, ValveSide.Intake, angle) < 0);
                Assert.True(phi < 360 || PublishedTable.SlackAt(layout, cylinder, ValveSide.Exhaust, angle) < 0);
            }
        }
    }

    // TM 5-3825-226-24: its four positions set the intake of the cylinder that fires 90 degrees later, which the coarse
    // rule forbids and true opening and closing angles allow.
    [Fact]
    public void HeelOf_FourPositionTable_SetsIntakesThatTheCoarseRuleForbids()
    {
        CrankLayout layout = PublishedTables.VeeEightFourPositions.Layout(PublishedTable.LongOpen);
        foreach ((double angle, int cylinder) in new[] { (0.0, 2), (180, 3), (360, 5), (540, 8) })
        {
            Assert.Contains(cylinder, PublishedTables.VeeEightFourPositions.Positions.Single(p => p.Angle == angle).Intake);
            Assert.Equal(-90, Phi(layout, cylinder, angle));
            Assert.Equal(19, PublishedTable.SlackAt(layout, cylinder, ValveSide.Intake, angle), 1e-9);
        }
    }

    // Three-position tables set an exhaust valve at 90 and an intake valve at -120 (derived from published tables): with
    // typical events both are on their heels by 40 and 10 degrees, with long ones only the exhaust is, by 19.
    [Fact]
    public void HeelOf_BeyondTheCoarseRule_DependsOnTheEvents()
    {
        CrankLayout typical = PublishedTables.InlineFour.Layout(PublishedTable.Typical);
        CrankLayout longOpen = PublishedTables.InlineFour.Layout(PublishedTable.LongOpen);
        Assert.Equal(40, PublishedTable.SlackAt(typical, 1, ValveSide.Exhaust, 90), 1e-9);
        Assert.Equal(19, PublishedTable.SlackAt(longOpen, 1, ValveSide.Exhaust, 90), 1e-9);
        Assert.Equal(10, PublishedTable.SlackAt(typical, 1, ValveSide.Intake, -120), 1e-9);
        Assert.True(PublishedTable.SlackAt(longOpen, 1, ValveSide.Intake, -120) < 0);
    }

    private static double Phi(CrankLayout layout, int cylinder, double angle)
    {
        double past = CrankAngle.Turn(layout.FiresAt(cylinder), angle);
        return past > 360 ? past - 720 : past;
    }
}
