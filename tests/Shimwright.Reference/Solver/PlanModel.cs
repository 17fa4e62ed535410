using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Reference.Solver;

/// <summary>
/// What may be done at every valve, derived once more from the rules of the plan and not from the planner: keep from
/// keepFloor on, else stranded; fit any shim of another valve, of the drawer or of the shop from fitFloor on.
/// </summary>
internal sealed class PlanModel
{
    /// <summary>One thing that may be done at one valve.</summary>
    /// <param name="Chance">Of being in band; 1 where the valve is stranded.</param>
    /// <param name="Work">Swap, disturbing and price.</param>
    /// <param name="IsStranded">Whether it is left out of band.</param>
    /// <param name="From">The valve whose shim is used, or null.</param>
    /// <param name="Drawer">The drawer's shims that are used, by their place there, or null.</param>
    /// <param name="IsChange">Whether another thickness is fitted, for which the group has to be opened.</param>
    /// <param name="IsSeatedAnew">Whether it is kept under an opened group.</param>
    internal sealed record Choice(
        double Chance, double Work, bool IsStranded = false, int? From = null, int? Drawer = null, bool IsChange = true, bool IsSeatedAnew = false)
    {
        public double Doubt => -Math.Log(Chance);
    }

    public PlanModel(PlanRequest request, EngineEstimate estimate)
    {
        Request = request;
        Drawer = request.Stock.Drawer;
        Choices = [.. request.Fitted.Select((_, v) => ChoicesOf(v, estimate.Valves[v]).ToArray())];
        GroupOf = [.. request.Engine.Valves.Select(v => request.Engine.AccessGroups.Index().First(g => g.Item == v.Access).Index)];
        Access = [.. request.Engine.AccessGroups.Select(request.Costs.AccessOf)];
    }

    public PlanRequest Request { get; }

    public IReadOnlyList<DrawerShims> Drawer { get; }

    /// <summary>For each valve: staying, then every fit.</summary>
    public IReadOnlyList<Choice[]> Choices { get; }

    public IReadOnlyList<int> GroupOf { get; }

    public IReadOnlyList<double> Access { get; }

    /// <summary>What a plan comes to.</summary>
    public PlanValue ValueOf(Choice[] plan)
    {
        double opened = plan.Index().Where(c => c.Item.IsChange).Select(c => GroupOf[c.Index]).Distinct().Sum(g => Access[g]);
        double[] doubts = [.. Access.Select((_, g) => plan.Where((_, v) => GroupOf[v] == g).Sum(c => c.Doubt))];
        double toCome = (Request.Costs.Redo * (1 - Math.Exp(-doubts.Sum())))
            + Access.Select((a, g) => a * (1 - Math.Exp(-doubts[g]))).Sum()
            + (Request.Again * plan.Sum(c => 1 - c.Chance));
        return new(plan.Count(c => c.IsStranded), plan.Sum(c => c.Work) + opened, toCome, doubts);
    }

    private IEnumerable<Choice> ChoicesOf(int v, ClearanceDistribution clearance)
    {
        bool mayStay = clearance.InBand >= Request.Rules.KeepFloor;
        double swap = Request.Costs.Swap + (clearance.InBand >= 0.9 ? Request.Costs.Disturb : 0);
        yield return new(mayStay ? clearance.InBand : 1, 0, !mayStay, IsChange: false);
        if (mayStay)
        {
            double seated = clearance.InBandAfter(ClearanceChange.By(0, Request.Rules.Seating.StandardDeviation));
            yield return new(seated, 0, IsChange: false, IsSeatedAnew: true);
        }

        for (int other = 0; other < Request.Fitted.Count; other++)
        {
            if (other != v && Chance(v, clearance, Request.Fitted[other]) is { } chance)
            {
                yield return new(chance, swap, From: other);
            }
        }

        foreach ((int place, DrawerShims shims) in Drawer.Index())
        {
            if (Chance(v, clearance, shims.Thickness) is { } chance)
            {
                yield return new(chance, swap, Drawer: place);
            }
        }

        foreach (PurchasableSize size in Request.Stock.Sizes)
        {
            if (Chance(v, clearance, size.Thickness) is { } chance)
            {
                yield return new(chance, swap + (Request.Costs.MinutesPerCurrency * size.Price));
            }
        }
    }

    private double? Chance(int v, ClearanceDistribution clearance, Thickness to)
    {
        // Like for like is no change. Common practice, no source.
        if (Math.Abs(Request.Fitted[v].Millimetres - to.Millimetres) < 0.008 - 1e-9)
        {
            return null;
        }

        double ratio = Request.Engine.Valvetrain.Ratio;
        ThicknessDifference difference = Request.Fitted[v].Minus(to);
        double seating = Request.Rules.Seating.StandardDeviation;
        double error = Math.Sqrt((seating * seating) + (ratio * ratio * difference.Uncertainty * difference.Uncertainty));
        double chance = clearance.InBandAfter(ClearanceChange.By(ratio * difference.Millimetres, error));
        return chance >= Request.Rules.FitFloor ? chance : null;
    }
}

/// <summary>A plan as a point.</summary>
/// <param name="Stranded">Valves that are left out of band.</param>
/// <param name="Work">Access, swaps, disturbing and purchases.</param>
/// <param name="ToCome">What is to come after it.</param>
/// <param name="Doubts">Σ -ln chance of each group.</param>
internal sealed record PlanValue(int Stranded, double Work, double ToCome, double[] Doubts);
