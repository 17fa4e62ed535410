using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>
/// Big engines with many access groups whose plans can still be found by taking them apart. All valves carry the
/// same thickness and each is plainly in or plainly out of its band, so no valve can use another's shim: but for
/// the few shims of the drawer, the groups have nothing to do with each other.
/// </summary>
internal static class ManyGroups
{
    public const double Fitted = 2.60;

    public static PlanRequest Draw(int seed, int groups, int valvesEach, params DrawerShims[] drawer)
    {
        var chance = new SeededChance(seed);
        Valve[] valves =
        [
            .. Enumerable.Range(0, groups * valvesEach).Select(v =>
                Made.Valve($"V{v + 1}", v % 2 == 0 ? ValveSide.Intake : ValveSide.Exhaust, $"group {(v / valvesEach) + 1}")),
        ];
        EngineCheck check = new(Made.Engine(valves), valves.Select(_ => Reading(chance)));
        PurchasableSize[] sizes =
        [
            .. Enumerable.Range(0, 9).Select(k => new PurchasableSize(Made.Marked(2.45 + (0.025 * k)), k % 2 == 0 ? 8 : 12)),
        ];
        var costs = new PlanCosts(
            access: Enumerable.Range(1, groups).ToDictionary(g => $"group {g}", _ => Math.Round(chance.Uniform(2, 12), 1)));
        return new(check, [.. valves.Select(_ => Made.Marked(Fitted))], new Stock(drawer, sizes), costs);
    }

    /// <summary>A third of the valves is surely out; the others are in, but not all surely.</summary>
    private static ValveReadings Reading(SeededChance chance) => chance.Happens(0.33)
        ? Made.Value(chance.Uniform(0.03, 0.07), 0.005)
        : Made.Value(chance.Uniform(0.132, 0.16), chance.Pick(0.008, 0.015));

    /// <summary>The corners of the hull, from what each group can do on its own.</summary>
    public static List<(double NegLogChance, double Minutes)> Hull(PlanRequest request, EngineEstimate estimate)
    {
        Thickness[] drawer = [.. request.Stock.Drawer.SelectMany(d => Enumerable.Repeat(d.Thickness, d.Count))];
        Dictionary<string, List<(double NegLogChance, double Minutes)>> alone =
            request.Engine.AccessGroups.ToDictionary(g => g, g => OfGroup(g, [], request, estimate));
        List<(double NegLogChance, double Minutes)> corners = [];
        foreach (Dictionary<int, Thickness> given in WaysToGive(drawer, request.Engine.Valves.Count))
        {
            HashSet<string> touched = [.. given.Keys.Select(v => request.Engine.Valves[v].Access)];
            var sets = request.Engine.AccessGroups.Select(g => touched.Contains(g) ? OfGroup(g, given, request, estimate) : alone[g]).ToList();
            if (sets.All(s => s.Count > 0))
            {
                corners.AddRange(LowerHull.Sum(sets));
            }
        }

        return LowerHull.Of(corners);
    }

    /// <summary>Every way to give shims out, at most one a valve.</summary>
    private static IEnumerable<Dictionary<int, Thickness>> WaysToGive(ReadOnlyMemory<Thickness> drawer, int valves)
    {
        if (drawer.Length == 0)
        {
            yield return [];
            yield break;
        }

        foreach (Dictionary<int, Thickness> rest in WaysToGive(drawer[1..], valves))
        {
            yield return rest;
            foreach (int v in Enumerable.Range(0, valves).Where(v => !rest.ContainsKey(v)))
            {
                yield return new Dictionary<int, Thickness>(rest) { [v] = drawer.Span[0] };
            }
        }
    }

    private static List<(double NegLogChance, double Minutes)> OfGroup(
        string group, Dictionary<int, Thickness> given, PlanRequest request, EngineEstimate estimate)
    {
        List<(double NegLogChance, double Minutes, bool IsOpen)> points = [(0, 0, false)];
        foreach ((int v, Valve _) in request.Engine.Valves.Index().Where(i => i.Item.Access == group))
        {
            List<(double NegLogChance, double Minutes, bool IsChange)> ways = [.. WaysOf(v, given.GetValueOrDefault(v), request, estimate.Valves[v])];
            points = [.. points.SelectMany(_ => ways, (p, w) => (p.NegLogChance + w.NegLogChance, p.Minutes + w.Minutes, p.IsOpen || w.IsChange))];
        }

        return LowerHull.Of(points.Select(p => (p.NegLogChance, p.Minutes + (p.IsOpen ? request.Costs.AccessOf(group) : 0))));
    }

    private static IEnumerable<(double NegLogChance, double Minutes, bool IsChange)> WaysOf(
        int v, Thickness? given, PlanRequest request, ClearanceDistribution clearance)
    {
        double Chance(Thickness to) => clearance.InBandAfter(ClearanceChange.By(
            request.Fitted[v].Millimetres - to.Millimetres,
            request.Rules.Seating.ChangeUncertainty(request.Fitted[v].Minus(to).Uncertainty)));
        if (given is not null)
        {
            // A shim that was given out is used, or the same plan would be counted under another giving.
            if (Chance(given) >= request.Rules.FitFloor)
            {
                yield return (-Math.Log(Chance(given)), request.Costs.Swap, true);
            }

            yield break;
        }

        if (clearance.InBand >= request.Rules.KeepFloor)
        {
            yield return (-Math.Log(clearance.InBand), 0, false);
        }

        foreach (PurchasableSize size in request.Stock.Sizes.Where(s => Chance(s.Thickness) >= request.Rules.FitFloor))
        {
            yield return (-Math.Log(Chance(size.Thickness)), request.Costs.Swap + size.Price, true);
        }
    }
}
