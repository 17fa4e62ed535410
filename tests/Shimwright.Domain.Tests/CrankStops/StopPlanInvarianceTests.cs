using Shimwright.Domain.CrankStops;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

/// <summary>What must not change a plan: names, where the listing begins, where the datum lies.</summary>
public class StopPlanInvarianceTests
{
    private const int Runs = 100;

    [Fact]
    public void For_RenumberedCylinders_ChangesNothing()
    {
        var chance = new SeededChance(20250703);
        foreach ((CrankLayout layout, bool anywhere) in Layouts(chance))
        {
            int[] number = [0, .. chance.Shuffled(Enumerable.Range(1, 6))];
            var renumbered = new CrankLayout(
                [.. layout.FiringOrder.Select(c => number[c])],
                layout.FiringAngles,
                [.. layout.Valves.Select(v => v with { Cylinder = number[v.Cylinder] })],
                layout.Ramp,
                layout.Marks);
            Assert.Equal(StopPlan.For(layout, anywhere)?.Words(layout), StopPlan.For(renumbered, anywhere)?.Words(renumbered));
        }
    }

    [Fact]
    public void For_FiringOrderWrittenFromAnotherCylinderOn_ChangesNothing()
    {
        foreach ((CrankLayout layout, bool anywhere) in Layouts(new SeededChance(20250704)))
        {
            CrankLayout rotated = With(
                layout,
                [.. layout.FiringOrder.Skip(1), layout.FiringOrder[0]],
                [.. layout.FiringAngles.Skip(1), layout.FiringAngles[0] + 720]);
            Assert.Equal(StopPlan.For(layout, anywhere)?.Words(layout), StopPlan.For(rotated, anywhere)?.Words(rotated));
        }
    }

    [Theory]
    [InlineData(3, 4, 2, 1)]
    [InlineData(4, 2, 1, 3)]
    [InlineData(2, 1, 3, 4)]
    public void For_EvenFiring_CountsFromCylinderOneWhereverItStands(params int[] order)
    {
        CrankLayout layout = MadeLayout.Of([1, 3, 4, 2]);
        CrankLayout rotated = MadeLayout.Of(order, layout.Valves);
        Assert.Equal(0, rotated.FiresAt(1));
        Assert.Equal(StopPlan.For(layout, anywhere: false).Words(layout), StopPlan.For(rotated, anywhere: false).Words(rotated));
    }

    [Fact]
    public void For_EvenAnglesWrittenOut_IsTheSameAsLeavingThemOut()
    {
        foreach (int count in Enumerable.Range(1, 12))
        {
            int[] order = [.. Enumerable.Range(1, count)];
            CrankLayout even = MadeLayout.Of(order);
            CrankLayout written = With(even, order, [.. order.Select(c => (c - 1) * 720.0 / count)]);
            Assert.Equal(StopPlan.For(even, anywhere: false).Words(even), StopPlan.For(written, anywhere: false).Words(written));
        }
    }

    [Fact]
    public void For_ShiftedDatum_ShiftsTheAnglesOnly()
    {
        var chance = new SeededChance(20250705);
        foreach ((CrankLayout layout, bool anywhere) in Layouts(chance))
        {
            double shift = chance.Whole(-360, 360);
            CrankLayout shifted = new(
                layout.FiringOrder, [.. layout.FiringAngles.Select(a => a + shift)], layout.Valves, layout.Ramp, [.. layout.Marks.Select(m => m + shift)]);
            StopPlan? before = StopPlan.For(layout, anywhere);
            StopPlan? after = StopPlan.For(shifted, anywhere);

            // Which of several equally good plans comes first depends on where counting begins; how good they are does not.
            Assert.Equal(before?.Stops.Count, after?.Stops.Count);
            if (before is not null)
            {
                Assert.Equal(before.SmallestSlack(), after.SmallestSlack(), 1e-6);
            }
        }
    }

    [Fact]
    public void For_DatumShiftedToAStop_KeepsTheOtherStops()
    {
        // One plan is best here, each cylinder at its own compression, so that it has to come out again.
        CrankLayout layout = new([1, 2], [0, 270], MadeLayout.TwoEach([1, 2]));
        StopPlan before = StopPlan.For(layout, anywhere: false)!;
        CrankLayout shifted = With(layout, layout.FiringOrder, [.. layout.FiringAngles.Select(a => a - before.Stops[1].Angle)]);
        StopPlan after = StopPlan.For(shifted, anywhere: false)!;
        Assert.Equal(0, after.Stops[0].Angle);
        Assert.Equal(before.Stops.Select(s => CrankAngle.Wrap(s.Angle - before.Stops[1].Angle)).Order(), after.Stops.Select(s => s.Angle));
    }

    [Fact]
    public void For_AnyLayout_TurnsAreOnceRoundAtMost()
    {
        foreach ((CrankLayout layout, bool anywhere) in Layouts(new SeededChance(20250706)))
        {
            if (StopPlan.For(layout, anywhere) is { } plan)
            {
                Assert.Equal(plan.Stops[0].Angle, plan.Stops[0].Turn, 1e-9);
                Assert.All(plan.Stops.Skip(1), s => Assert.InRange(s.Turn, 0.1, 720));
                Assert.Equal(plan.Stops[^1].Angle, plan.Stops.Sum(s => s.Turn), 1e-6);
                Assert.True(plan.Stops.Sum(s => s.Turn) < 720);
            }
        }
    }

    [Fact]
    public void For_AnyLayout_ListsEveryValveOnceAndNoStopInVain()
    {
        foreach ((CrankLayout layout, bool anywhere) in Layouts(new SeededChance(20250707)))
        {
            if (StopPlan.For(layout, anywhere) is { } plan)
            {
                Assert.Equal(Enumerable.Range(0, layout.Valves.Count), plan.Stops.SelectMany(s => s.Valves.Select(v => v.Valve)).Order());
                Assert.All(plan.Stops, s => Assert.NotEmpty(s.Valves));
            }
        }
    }

    [Fact]
    public void For_Anywhere_NeedsNoMoreStopsAndNoLessSlackThanMarks()
    {
        int better = 0;
        foreach ((CrankLayout layout, _) in Layouts(new SeededChance(20250708)))
        {
            if (StopPlan.For(layout, anywhere: false) is { } marks)
            {
                StopPlan free = StopPlan.For(layout, anywhere: true)!;
                Assert.True(free.Stops.Count < marks.Stops.Count
                    || (free.Stops.Count == marks.Stops.Count && free.SmallestSlack() >= marks.SmallestSlack() - 1e-6));
                better += free.Stops.Count < marks.Stops.Count || free.SmallestSlack() > marks.SmallestSlack() + 1e-6 ? 1 : 0;
            }
        }

        Assert.True(better > Runs / 4);
    }

    private static CrankLayout With(CrankLayout layout, IReadOnlyList<int> order, IReadOnlyList<double> angles) =>
        new(order, angles, layout.Valves, layout.Ramp, layout.Marks);

    private static IEnumerable<(CrankLayout Layout, bool Anywhere)> Layouts(SeededChance chance) =>
        Enumerable.Range(0, Runs).Select(run => (RandomLayout.Of(chance), run % 2 == 0));
}
