using FsCheck.Xunit;
using Shimwright.Domain.Planning;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

[Properties(Replay = "20250101,7", MaxTest = 120, QuietOnSuccess = true)]
public class PlanProperties
{
    [Property]
    public void Plan_LengthsFromInches_IsTheSame(ushort seed)
    {
        PlanRequest job = RandomJob.Draw(seed);
        ShimPlan plan = Planner.Plan(job).Chosen;
        ShimPlan again = Planner.Plan(RewrittenJob.WithLengths(job, mm => mm / 25.4 * 25.4)).Chosen;

        // Rounding may divide the clearances a little more finely: the value moves in the sixth figure, the plan does not.
        HasTheSameValue(plan, again, 1e-3, 1e-5);
        Assert.Equal(plan.Valves.Select(v => (v.Action, v.Source, v.FromValve)), again.Valves.Select(v => (v.Action, v.Source, v.FromValve)));
    }

    [Property]
    public void Plan_ValvesAndShimsInAnotherOrder_HasTheSameValue(ushort seed, byte order)
    {
        PlanRequest job = RandomJob.Draw(seed);
        HasTheSameValue(Planner.Plan(job).Chosen, Planner.Plan(RewrittenJob.Shuffled(job, order)).Chosen);
    }

    [Property]
    public void Plan_OneShimMoreInTheDrawer_IsNoWorse(ushort seed, byte thickness)
    {
        PlanRequest job = RandomJob.Draw(seed);
        ShimPlan without = Planner.Plan(job).Chosen;
        ShimPlan with = Planner.Plan(RewrittenJob.WithShim(job, 2.30 + (0.002 * thickness))).Chosen;
        Assert.True(with.Stranded.Count <= without.Stranded.Count);
        Assert.True(
            with.Stranded.Count < without.Stranded.Count || with.Minutes <= without.Minutes + 1e-6,
            $"{with.Minutes} minutes with the shim, {without.Minutes} without");
    }

    private static void HasTheSameValue(ShimPlan plan, ShimPlan again, double minutes = 1e-6, double chance = 1e-6)
    {
        Assert.Equal(plan.Stranded.Count, again.Stranded.Count);
        Assert.Equal(plan.Minutes, again.Minutes, minutes);
        Assert.Equal(plan.ChanceAll, again.ChanceAll, chance);
        Assert.Equal(plan.Opened.Order(StringComparer.Ordinal), again.Opened.Order(StringComparer.Ordinal));
    }
}
