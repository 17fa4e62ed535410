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
    private readonly bool[] _wasGood;
    private readonly bool[] _gives;
    private readonly HashSet<string> _opened = [];
    private readonly List<PlanOutcome> _outcomes = [];

    private BruteForce(PlanRequest request, EngineEstimate estimate)
    {
        _request = request;
        int valves = request.Engine.Valves.Count;
        _ways = [.. Enumerable.Range(0, valves).Select(v => WaysOf(v, request, estimate.Valves[v]))];
        _left = [.. request.Stock.Drawer.Select(d => d.Count)];
        _choice = new Way[valves];
        _gives = new bool[valves];
        _wasGood = [.. estimate.Valves.Select(v => v.InBand >= 0.9)];
    }

    /// <summary>One thing that may be done at a valve.</summary>
    private readonly record struct Way(double Chance, double SeatedAnew, double? Price, bool IsChange, bool IsStranded, int? Drawer, int? Giver);

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
        Array.Clear(_gives);
        _opened.Clear();
        for (int v = 0; v < _choice.Length; v++)
        {
            if (_choice[v].Giver is { } giver && (_gives[giver] || !_choice[giver].IsChange))
            {
                return;
            }

            if (_choice[v].Giver is { } once)
            {
                _gives[once] = true;
            }

            if (_choice[v].IsChange)
            {
                _opened.Add(_request.Engine.Valves[v].Access);
            }
        }

        Span<PlanOutcome.Line> lines = stackalloc PlanOutcome.Line[_choice.Length];
        for (int v = 0; v < lines.Length; v++)
        {
            Way w = _choice[v];
            lines[v] = new(_opened.Contains(_request.Engine.Valves[v].Access) ? w.SeatedAnew : w.Chance, w.IsStranded, w.IsChange, _wasGood[v], w.Price);
        }

        _outcomes.Add(PlanOutcome.Of(_request, lines));
    }

    private static List<Way> WaysOf(int v, PlanRequest request, ClearanceDistribution clearance)
    {
        bool mayStay = clearance.InBand >= request.Rules.KeepFloor;
        double seating = request.Rules.Seating.StandardDeviation;
        double seatedAnew = clearance.InBandAfter(ClearanceChange.By(0, seating));
        List<Way> ways = [mayStay ? new(clearance.InBand, seatedAnew, null, false, false, null, null) : new(1, 1, null, false, true, null, null)];
        void Add(Thickness to, double? price, int? drawer, int? giver)
        {
            // Like for like: a change below 0.008 is none. Common practice, no source.
            if (Math.Abs(to.Millimetres - request.Fitted[v].Millimetres) < 0.008 - 1e-9)
            {
                return;
            }

            double chance = ChanceOf(request, v, clearance, to);
            if (chance >= request.Rules.FitFloor)
            {
                ways.Add(new(chance, chance, price, true, false, drawer, giver));
            }
        }

        foreach ((int d, DrawerShims shims) in request.Stock.Drawer.Index())
        {
            Add(shims.Thickness, null, d, null);
        }

        foreach ((int other, Thickness there) in request.Fitted.Index().Where(f => f.Index != v))
        {
            Add(there, null, null, other);
        }

        foreach (PurchasableSize size in request.Stock.Sizes)
        {
            Add(size.Thickness, size.Price, null, null);
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
