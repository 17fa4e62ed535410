using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>
/// Big engines with many access groups whose plans can still be found by taking them apart. All valves carry the
/// same thickness, and like for like is no change, so no valve can use another's shim: but for
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

    /// <summary>
    /// The least of work and a rate times what is to come over all plans, from what each group can do on its own. Given the shims, the
    /// groups have only the redo in common: it is concave in the doubt, so the least lies at a corner of the hull of their sums.
    /// </summary>
    public static double Least(PlanRequest request, EngineEstimate estimate, double rate)
    {
        Thickness[] drawer = [.. request.Stock.Drawer.SelectMany(d => Enumerable.Repeat(d.Thickness, d.Count))];
        Dictionary<string, List<(double Doubt, double Cost)>> alone =
            request.Engine.AccessGroups.ToDictionary(g => g, g => OfGroup(g, [], request, estimate, rate));
        double least = double.PositiveInfinity;
        foreach (Dictionary<int, Thickness> given in WaysToGive(drawer, request.Engine.Valves.Count))
        {
            HashSet<string> touched = [.. given.Keys.Select(v => request.Engine.Valves[v].Access)];
            var sets = request.Engine.AccessGroups.Select(g => touched.Contains(g) ? OfGroup(g, given, request, estimate, rate) : alone[g]).ToList();
            if (sets.All(s => s.Count > 0))
            {
                least = Math.Min(least, LowerHull.Sum(sets).Min(c => c.Work + (rate * request.Costs.Redo * (1 - Math.Exp(-c.ToCome)))));
            }
        }

        return least;
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

    /// <summary>All that a group can do: its doubt, and its work and the rest of what is to come at the rate.</summary>
    private static List<(double Doubt, double Cost)> OfGroup(
        string group, Dictionary<int, Thickness> given, PlanRequest request, EngineEstimate estimate, double rate)
    {
        int[] members = [.. Enumerable.Range(0, request.Engine.Valves.Count).Where(v => request.Engine.Valves[v].Access == group)];
        List<(double Doubt, double Cost)> points = [];
        foreach (bool isOpened in (bool[])[false, true])
        {
            List<(double Doubt, double Cost, bool IsChange)> some = [(0, isOpened ? request.Costs.AccessOf(group) : 0, false)];
            foreach (int v in members)
            {
                List<(double Chance, double Minutes, bool IsChange)> ways =
                    [.. WaysOf(v, given.GetValueOrDefault(v), isOpened, request, estimate.Valves[v]).Where(w => isOpened || !w.IsChange)];
                some = [.. some.SelectMany(_ => ways, (p, w) =>
                    (p.Doubt - Math.Log(w.Chance), p.Cost + w.Minutes + (rate * request.Again * (1 - w.Chance)), p.IsChange || w.IsChange))];
            }

            points.AddRange(some.Where(p => p.IsChange == isOpened)
                .Select(p => (p.Doubt, p.Cost + (rate * request.Costs.AccessOf(group) * (1 - Math.Exp(-p.Doubt))))));
        }

        return points;
    }

    private static IEnumerable<(double Chance, double Minutes, bool IsChange)> WaysOf(
        int v, Thickness? given, bool isOpened, PlanRequest request, ClearanceDistribution clearance)
    {
        double Chance(Thickness to) => clearance.InBandAfter(ClearanceChange.By(
            request.Fitted[v].Millimetres - to.Millimetres,
            request.Rules.Seating.ChangeUncertainty(request.Fitted[v].Minus(to).Uncertainty)));
        double swap = request.Costs.Swap + (clearance.InBand >= 0.9 ? request.Costs.Disturb : 0);
        if (given is not null)
        {
            // A shim that was given out is used, or the same plan would be counted under another giving.
            if (Chance(given) >= request.Rules.FitFloor)
            {
                yield return (Chance(given), swap, true);
            }

            yield break;
        }

        if (clearance.InBand >= request.Rules.KeepFloor)
        {
            yield return (isOpened ? clearance.InBandAfter(ClearanceChange.By(0, request.Rules.Seating.StandardDeviation)) : clearance.InBand, 0, false);
        }

        foreach (PurchasableSize size in request.Stock.Sizes.Where(
            s => Math.Abs(s.Thickness.Millimetres - Fitted) > 0.008 && Chance(s.Thickness) >= request.Rules.FitFloor))
        {
            yield return (Chance(size.Thickness), swap + size.Price, true);
        }
    }
}
