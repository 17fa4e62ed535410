using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Whether a plan can be carried out on the bench with what there is.</summary>
internal static class PlanAssert
{
    public static void CanBeCarriedOut(ShimPlan plan, PlanRequest request, EngineEstimate estimate)
    {
        Assert.Equal(request.Engine.Valves.Select(v => v.Id), plan.Valves.Select(v => v.Valve.Id));
        EachShimOnce(plan, request);
        OpenedAreTheGroupsWithChanges(plan, request);
        FloorsAreKept(plan, request, estimate);
        Assert.Equal(
            plan.Valves.Index().Where(v => v.Item.IsStranded).Select(v => v.Index), plan.Stranded.Select(s => s.Valve));
        Assert.Equal(plan.Valves.Count(v => v.Source == ShimSource.Buy), plan.Bought.Sum(b => b.Count));
    }

    private static void EachShimOnce(ShimPlan plan, PlanRequest request)
    {
        PlannedValve[] fits = [.. plan.Valves.Where(v => v.Action == ValveAction.Fit)];
        foreach (IGrouping<Thickness, PlannedValve> same in fits.Where(v => v.Source == ShimSource.Drawer).GroupBy(v => v.To!))
        {
            int there = request.Stock.Drawer.Where(d => d.Thickness == same.Key).Sum(d => d.Count);
            Assert.True(same.Count() <= there, $"{same.Count()} shims of {same.Key.Millimetres} out of {there}");
        }

        int[] givers = [.. fits.Where(v => v.Source == ShimSource.Engine).Select(v => v.FromValve!.Value)];
        Assert.Equal(givers.Distinct(), givers);
        Assert.All(givers, g => Assert.Equal(ValveAction.Fit, plan.Valves[g].Action));
        Assert.All(fits.Where(v => v.Source == ShimSource.Engine), v => Assert.Equal(request.Fitted[v.FromValve!.Value], v.To));
        Assert.All(fits.Where(v => v.Source != ShimSource.Engine), v => Assert.Null(v.FromValve));
        Assert.All(
            fits.Where(v => v.Source == ShimSource.Buy), v => Assert.Contains(request.Stock.Sizes, s => s.Thickness == v.To));
    }

    private static void OpenedAreTheGroupsWithChanges(ShimPlan plan, PlanRequest request)
    {
        HashSet<string> changed = [.. plan.Valves.Where(v => v.Action != ValveAction.Keep).Select(v => v.Valve.Access)];
        Assert.Equal(request.Engine.AccessGroups.Where(changed.Contains), plan.Opened);
    }

    private static void FloorsAreKept(ShimPlan plan, PlanRequest request, EngineEstimate estimate)
    {
        foreach ((int v, PlannedValve line) in plan.Valves.Index())
        {
            if (line.IsStranded)
            {
                Assert.Equal(ValveAction.Keep, line.Action);
                Assert.Null(line.Chance);
                Assert.Null(line.After);
                Assert.True(estimate.Valves[v].InBand < request.Rules.KeepFloor);
                continue;
            }

            Assert.NotNull(line.After);
            // A valve that is seated anew may come to a little less than the floor, which looks at it as it is.
            double chance = line.Action == ValveAction.Keep ? estimate.Valves[v].InBand : line.Chance!.Value;
            Assert.InRange(chance, line.Action == ValveAction.Keep ? request.Rules.KeepFloor : request.Rules.FitFloor, 1);
            Assert.Equal(line.Action == ValveAction.Keep && plan.Opened.Contains(line.Valve.Access), line.IsSeatedAnew);
        }
    }
}
