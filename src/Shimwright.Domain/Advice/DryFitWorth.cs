using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What a dry fit of an access group is worth: the chosen shims in, the camshaft laid back heel down, each changed valve felt with the blade
/// nearest the middle of its band, and lifted again. What is felt is taken at evenly spread points from a stated seed on; each is planned on from, the group
/// being open already.
/// </summary>
internal static class DryFitWorth
{
    private const int Draws = 24;

    private static readonly int[] Primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89];

    /// <summary>A dry fit of each group that the plan opens, of those that leave more than so many minutes; asked for before each.</summary>
    public static IEnumerable<AdvisedAction> Of(AdviceRequest request, Outlook now, Func<double> toLeave)
    {
        if (request.Minutes.DryFit is not { } takes || request.Blades.Count == 0 || !request.Plan.Engine.Valvetrain.HasShims)
        {
            yield break;
        }

        foreach (string group in now.Plan.Opened)
        {
            int[] changed = [.. Enumerable.Range(0, now.Plan.Valves.Count)
                .Where(v => now.Plan.Valves[v].Valve.Group == group && now.Plan.Valves[v].Action == ValveAction.Fit)];
            double most = changed.Length == 0 || now.IsSpent ? 0 : MostToGain(now, changed);
            if (most > takes && !now.IsSmall && most <= takes + toLeave())
            {
                now.Spare(Draws);
            }
            else if (most > takes && After(request, now, group, changed, toLeave() + takes) is { } after)
            {
                yield return new(ActionKind.DryFit, now.Saving(after), takes, null, [], null, group, []);
            }
        }
    }

    /// <summary>What a group's changed valves could save at most: all that is to come because of them; what their feel tells of other valves is on top of that.</summary>
    private static double MostToGain(Outlook now, int[] changed)
    {
        double failing = 1 - changed.Aggregate(1.0, (p, v) => p * now.Best.Choice[v].Chance);
        string group = now.Request.Engine.Valves[changed[0]].Group;
        return (failing * (now.Request.Costs.Redo + now.Request.Costs.AccessOf(group)))
            + changed.Sum(v => now.Best.Choice[v].Failing * now.Request.Again);
    }

    /// <summary>What the job is expected to come to after it, the work of the dry fit's own fitting included; null where it does not save so many minutes.</summary>
    private static double? After(AdviceRequest request, Outlook now, string group, int[] changed, double toSave)
    {
        PlanRequest plan = request.Plan;
        Adjustment[] changes = [.. changed.Select(v => Adjustment.Fitted(v, plan.Fitted[v], now.Best.Choice[v].To!))];
        double done = plan.Costs.ToOpen(group) + changed.Sum(v => now.Best.Choice[v].Minutes);
        PlanRequest open = Open(plan, group, changes);
        double[] blades = [.. changed.Select(v => request.Blades.MinBy(b => Math.Abs(b - plan.Engine.Valves[v].Band.Middle)))];
        var nothing = new Recheck(plan.Check, changes, [.. plan.Engine.Valves.Select(_ => ValveReadings.None)], plan.Check.Temperature, plan.Rules.Seating);
        EngineEstimate fitted = EngineEstimate.Open(nothing.ToCheck(), open.FinestChange);
        double[][] chances = [.. changed.Select((v, k) => ChancesOfFeels(fitted, v, blades[k]))];
        Dictionary<string, double> known = [];
        double MinutesAfter(int draw)
        {
            Feel[] felt = [.. changed.Select((_, k) => FeltAt(Point(request.Seed + draw, k), chances[k]))];
            string key = string.Concat(felt.Select(f => (int)f));
            if (!known.TryGetValue(key, out double minutes))
            {
                EngineEstimate after = fitted;
                foreach ((int k, int v) in changed.Index())
                {
                    after = after.With(v, new ValveReadings([new BladeTrial(blades[k], felt[k])]));
                }

                known.Add(key, minutes = now.MinutesWith(open.With(after.Check), after));
            }

            return minutes;
        }

        return Expectation.Minutes(now, done, _ => 1.0 / Draws, Enumerable.Range(0, Draws), MinutesAfter, 0, toSave) is { } all
            ? done + (all.Sum() / Draws)
            : null;
    }

    /// <summary>The job once the group is open and the chosen shims are in it.</summary>
    private static PlanRequest Open(PlanRequest plan, string group, Adjustment[] changes)
    {
        Thickness[] fitted = [.. plan.Fitted];
        foreach (Adjustment change in changes)
        {
            fitted[change.Valve] = change.To!;
        }

        return new(plan.Check, fitted, DrawerAfterWork.Of(plan.Stock, changes), plan.Costs.WithOpen([group]), plan.Rules, plan.Horizon);
    }

    /// <summary>Points that fill the unit cube evenly, whatever its dimension: multiples of the roots of primes, without their whole parts (Weyl 1916).</summary>
    private static double Point(int draw, int valve)
    {
        double turned = draw * Math.Sqrt(Primes[valve % Primes.Length]);
        return turned - Math.Floor(turned);
    }

    /// <summary>The chance of each feel of a valve with a blade, tightest first.</summary>
    private static double[] ChancesOfFeels(EngineEstimate fitted, int v, double blade)
    {
        ClearanceDistribution valve = fitted.Valves[v];
        FeelProfile feel = fitted.Check.Feel;
        double spread = Squares.CombinedStandardUncertainty(feel.StandardDeviationOf(1), feel.Doubt);
        double[] gaps = Array.ConvertAll(valve.Grid.Points(), c => c + fitted.Check.ShiftAt(v).Millimetres);
        double[] mass = valve.Mass.ToArray();
        return Array.ConvertAll(feel.ChancesAt(gaps, blade, spread), chances => mass.Zip(chances, (m, c) => m * c).Sum());
    }

    /// <summary>The feel at a point between 0 and 1 of all that it may be, tightest first.</summary>
    private static Feel FeltAt(double point, double[] chances)
    {
        double left = point;
        for (int felt = 0; felt < chances.Length; felt++)
        {
            left -= chances[felt];
            if (left <= 0)
            {
                return (Feel)felt;
            }
        }

        return Feel.Loose;
    }
}
