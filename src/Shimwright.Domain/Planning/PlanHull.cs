namespace Shimwright.Domain.Planning;

/// <summary>A plan as a point: its doubt (Σ -ln chance) against its minutes (access, swaps, purchases).</summary>
internal sealed record PlanPoint(ValveOption[] Choice, double NegLogChance, double Minutes, int Opened, int Changed, int Bought)
{
    /// <summary>The whole objective: minutes, and the second round as often as it will be needed.</summary>
    public double Objective(double secondRound) => (secondRound * -double.ExpM1(-NegLogChance)) + Minutes;
}

/// <summary>
/// The lower hull of all plans in (doubt, minutes), cheapest first. The chance of a second round is concave in the
/// doubt, so over all plans the least objective lies at a corner of this hull, and every corner is the best plan
/// under some exchange rate λ of minutes against doubt. Corners are found by asking for the best plan at the slope
/// of the line through two known ones, until nothing lies below the line.
/// </summary>
internal sealed class PlanHull
{
    /// <summary>What rounding to the quantum can add up to over all valves.</summary>
    private const double Tolerance = 256 * Weighing.Quantum;

    private readonly PlanSearch _search;
    private readonly PlanRequest _request;
    private readonly List<PlanPoint> _corners = [];

    public PlanHull(PlanRequest request, PlanSearch search)
    {
        _request = request;
        _search = search;
        PlanPoint cheapest = Solve(Weighing.MinutesPerDoubt(0, search.Scale));
        PlanPoint surest = Solve(Weighing.DoubtFirst(search.Scale));
        _corners.Add(cheapest);
        if (cheapest.NegLogChance - surest.NegLogChance > Tolerance)
        {
            Expand(cheapest, surest);
            _corners.Add(surest);
        }
    }

    /// <summary>The corners, least work first; once chosen, the chosen plan is among them.</summary>
    public IReadOnlyList<PlanPoint> Corners => _corners;

    /// <summary>The plan to take: the least objective, ties to fewer opened groups, changed valves, bought shims.</summary>
    public PlanPoint Choose()
    {
        double second = _request.SecondRound;
        if (second == 0)
        {
            return ChooseWhereDoubtIsFree();
        }

        return Best(_corners, second);
    }

    /// <summary>Of several plans that of the least objective; of those that have it, that which opens, changes and buys least, in that order.</summary>
    internal static PlanPoint Best(IReadOnlyList<PlanPoint> plans, double secondRound)
    {
        double least = plans.Min(p => p.Objective(secondRound));
        return plans
            .Where(p => p.Objective(secondRound) <= least + Weighing.Quantum)
            .MinBy(p => (p.Opened, p.Changed, p.Bought))!;
    }

    /// <summary>
    /// Where a second round costs nothing, doubt does not count, and the tie rules may prefer a plan behind the hull: it
    /// stands before the corners then.
    /// </summary>
    private PlanPoint ChooseWhereDoubtIsFree()
    {
        PlanPoint chosen = Solve(Weighing.MinutesOnly(_search.Scale));
        int same = _corners.FindIndex(p =>
            Math.Abs(p.Minutes - chosen.Minutes) <= Weighing.Quantum && Math.Abs(p.NegLogChance - chosen.NegLogChance) <= Tolerance);
        if (same < 0)
        {
            _corners.Insert(0, chosen);
        }
        else
        {
            _corners[same] = chosen;
        }

        return chosen;
    }

    private void Expand(PlanPoint cheaper, PlanPoint surer)
    {
        double lambda = (surer.Minutes - cheaper.Minutes) / (cheaper.NegLogChance - surer.NegLogChance);
        PlanPoint between = Solve(Weighing.MinutesPerDoubt(lambda, _search.Scale));
        double line = (lambda * cheaper.NegLogChance) + cheaper.Minutes;
        double found = (lambda * between.NegLogChance) + between.Minutes;
        if (found >= line - Tolerance
            || between.NegLogChance >= cheaper.NegLogChance - Weighing.Quantum
            || between.NegLogChance <= surer.NegLogChance + Weighing.Quantum)
        {
            return;
        }

        Expand(cheaper, between);
        _corners.Add(between);
        Expand(between, surer);
    }

    private PlanPoint Solve(Weighing weighing)
    {
        ValveOption[] choice = _search.Best(weighing);
        string[] opened = [.. choice.Index().Where(c => c.Item.IsChange)
            .Select(c => _request.Engine.Valves[c.Index].Access).Distinct(StringComparer.Ordinal)];
        return new PlanPoint(
            choice,
            choice.Sum(o => o.NegLogChance),
            choice.Sum(o => o.Minutes) + opened.Sum(_request.Costs.AccessOf),
            opened.Length,
            choice.Count(o => o.IsChange),
            choice.Count(o => o.IsBought));
    }
}
