using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Planning;

/// <summary>Chooses what is done at every valve: exact, over all choices of shims and of groups to open.</summary>
public static class Planner
{
    /// <summary>Plans a job.</summary>
    /// <param name="request">All that the plan rests on.</param>
    /// <returns>The plan to take and its alternatives; valves that cannot be helped are named in them.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="request"/> is null.</exception>
    public static PlanChoice Plan(PlanRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Plan(request, EngineEstimate.From(request.Check, request.FinestChange));
    }

    /// <summary>Plans a job whose estimate is at hand.</summary>
    internal static PlanChoice Plan(PlanRequest request, EngineEstimate estimate)
    {
        var options = new OptionTable(request, estimate);
        var hull = new PlanHull(new PlanSearch(request, options));
        var writer = new PlanWriter(request, estimate, options);
        List<PlanPoint> points = [.. hull.Corners];
        List<ShimPlan> plans = [.. points.Select(writer.Write)];
        return new PlanChoice(plans[points.IndexOf(hull.Chosen)], plans, estimate) { Unproven = hull.Unproven };
    }
}
