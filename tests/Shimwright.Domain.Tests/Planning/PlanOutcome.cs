using Shimwright.Domain.Planning;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>
/// What a choice comes to, counted afresh from the definitions: the product of the chances of the valves that are not
/// stranded, the minutes of access, swaps and prices, and the counts that settle ties.
/// </summary>
internal readonly record struct PlanOutcome(int Stranded, double Chance, double Minutes, int Opened, int Changed, int Bought)
{
    public double NegLogChance => -Math.Log(Chance);

    public (int Opened, int Changed, int Bought) Counts => (Opened, Changed, Bought);

    public double Objective(double secondRound) => (secondRound * (1 - Chance)) + Minutes;

    /// <summary>What a written plan comes to, from its lines and the price list.</summary>
    public static PlanOutcome Of(ShimPlan plan, PlanRequest request)
    {
        PlanCosts costs = request.Costs;
        double PriceOf(PlannedValve line) => line.Source == ShimSource.Buy
            ? request.Stock.Sizes.Where(s => s.Thickness == line.To).Min(s => s.Price) * costs.MinutesPerCurrency
            : 0;
        PlannedValve[] changed = [.. plan.Valves.Where(v => v.Action != ValveAction.Keep)];
        string[] groups = [.. changed.Select(v => v.Valve.Access).Distinct()];
        return new(
            plan.Valves.Count(v => v.IsStranded),
            plan.Valves.Where(v => !v.IsStranded).Aggregate(1.0, (product, v) => product * v.Chance!.Value),
            groups.Sum(costs.AccessOf) + changed.Sum(v => costs.Swap + PriceOf(v)),
            groups.Length,
            changed.Length,
            changed.Count(v => v.Source == ShimSource.Buy));
    }
}
