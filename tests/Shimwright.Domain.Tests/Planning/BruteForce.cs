using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>
/// Every choice there is, one after the other: the slow planner against which the fast one is held. It shares
/// nothing with it but the estimate of each valve.
/// </summary>
internal sealed class BruteForce
{
    private readonly PlanRequest _request;
    private readonly List<Way>[] _ways;
    private readonly int[] _left;
    private readonly Way[] _choice;
    private readonly List<PlanOutcome> _outcomes = [];

    private BruteForce(PlanRequest request, EngineEstimate estimate)
    {
        _request = request;
        int valves = request.Engine.Valves.Count;
        _ways = [.. Enumerable.Range(0, valves).Select(v => WaysOf(v, request, estimate.Valves[v]))];
        _left = [.. request.Stock.Drawer.Select(d => d.Count)];
        _choice = new Way[valves];
    }

    /// <summary>One thing that may be done at a valve.</summary>
    private readonly record struct Way(double Chance, double Minutes, bool IsChange, bool IsStranded, int? Drawer, int? Giver, bool IsBought);

    /// <summary>What all choices with fewest stranded valves come to.</summary>
    public static IReadOnlyList<PlanOutcome> Outcomes(PlanRequest request, EngineEstimate estimate)
    {
        var all = new BruteForce(request, estimate);
        all.Choose(0);
        int fewest = all._outcomes.Min(o => o.Stranded);
        return [.. all._outcomes.Where(o => o.Stranded == fewest)];
    }

    private void Choose(int v)
    {
        if (v == _choice.Length)
        {
            Settle();
            return;
        }

        foreach (Way way in _ways[v])
        {
            if (way.Drawer is { } drawer)
            {
                if (_left[drawer] == 0)
                {
                    continue;
                }

                _left[drawer]--;
            }

            _choice[v] = way;
            Choose(v + 1);
            if (way.Drawer is { } back)
            {
                _left[back]++;
            }
        }
    }

    private void Settle()
    {
        int[] givers = [.. _choice.Where(w => w.Giver is not null).Select(w => w.Giver!.Value)];
        if (givers.Distinct().Count() < givers.Length || givers.Any(g => !_choice[g].IsChange))
        {
            return;
        }

        string[] opened =
        [
            .. _choice.Index().Where(c => c.Item.IsChange).Select(c => _request.Engine.Valves[c.Index].Access).Distinct(),
        ];
        _outcomes.Add(new(
            _choice.Count(w => w.IsStranded),
            _choice.Aggregate(1.0, (product, w) => product * w.Chance),
            opened.Sum(_request.Costs.AccessOf) + _choice.Sum(w => w.Minutes),
            opened.Length,
            _choice.Count(w => w.IsChange),
            _choice.Count(w => w.IsBought)));
    }

    private static List<Way> WaysOf(int v, PlanRequest request, ClearanceDistribution clearance)
    {
        bool mayStay = clearance.InBand >= request.Rules.KeepFloor;
        List<Way> ways = [new(mayStay ? clearance.InBand : 1, 0, false, !mayStay, null, null, false)];
        void Add(Thickness to, double price, int? drawer, int? giver, bool isBought)
        {
            double chance = ChanceOf(request, v, clearance, to);
            if (chance >= request.Rules.FitFloor)
            {
                double minutes = request.Costs.Swap + (price * request.Costs.MinutesPerCurrency);
                ways.Add(new(chance, minutes, true, false, drawer, giver, isBought));
            }
        }

        foreach ((int d, DrawerShims shims) in request.Stock.Drawer.Index())
        {
            Add(shims.Thickness, 0, d, null, false);
        }

        foreach ((int other, Thickness there) in request.Fitted.Index().Where(f => f.Index != v))
        {
            Add(there, 0, null, other, false);
        }

        foreach (PurchasableSize size in request.Stock.Sizes)
        {
            Add(size.Thickness, size.Price, null, null, true);
        }

        return ways;
    }

    /// <summary>The chance after a change, from the uncertainties of the two thicknesses and of the seating.</summary>
    private static double ChanceOf(PlanRequest request, int v, ClearanceDistribution clearance, Thickness to)
    {
        Thickness from = request.Fitted[v];
        double ratio = request.Engine.Valvetrain.Ratio;
        double variance = Math.Pow(from.By.Random, 2) + Math.Pow(to.By.Random, 2);
        if (from.By.Name != to.By.Name)
        {
            variance += Math.Pow(from.By.Systematic, 2) + Math.Pow(to.By.Systematic, 2);
        }

        double error = Math.Sqrt(Math.Pow(request.Rules.Seating.StandardDeviation, 2) + (ratio * ratio * variance));
        return clearance.InBandAfter(ClearanceChange.By(ratio * (from.Millimetres - to.Millimetres), error));
    }
}
