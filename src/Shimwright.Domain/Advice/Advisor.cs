using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Advice;

/// <summary>
/// The next thing worth doing: for every action that is possible now, what the best plan comes to now, less what it is expected to come to
/// after the action's outcome, less what the action takes. Actions are first weighed valve by valve with all else left as planned; those that
/// come near to paying are planned through.
/// </summary>
public static class Advisor
{
    /// <summary>Blades that say nothing new: the chance of their likeliest feel is above this.</summary>
    private const double Foregone = 0.98;

    /// <summary>Planned through is what, weighed alone, does not fall short by more than this, minutes.</summary>
    private const double Short = 2;

    /// <summary>Blades planned through at a valve, the best first.</summary>
    private const int MostBlades = 6;

    /// <summary>What saves less seems to save nothing, minutes.</summary>
    private const double Nothing = 0.02;

    /// <summary>Actions planned through in all, the best first; shims to measure besides: valve by valve little can be told of them, and they are few.</summary>
    private const int MostActions = 50;

    /// <summary>Blades and stacks weighed at one valve.</summary>
    private const int MostStacks = 120;

    /// <summary>Of valves times stacks times places of a clearance, how many are weighed; the least places.</summary>
    private const int MostWeighed = 8_000_000, LeastPlaces = 300;

    /// <summary>Actions planned through however many steps they take.</summary>
    private const int LeastActions = 1;

    /// <summary>What is worth doing now.</summary>
    /// <param name="request">All that it rests on.</param>
    /// <returns>The best action for each valve and kind, best first; nothing where nothing more pays.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="request"/> is null.</exception>
    public static NextThings For(AdviceRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var now = new Outlook(request.Plan);
        Weighed[] near = Near(request, now);
        AdvisedAction?[] paying = [.. near.TakeWhile((_, i) => i < LeastActions || !now.IsSpent).Select(w => w.Through(0))];
        int unweighed = near.Skip(paying.Length).Count(w => w.Kind != ActionKind.Micrometer || w.Net > -Short);
        List<AdvisedAction> through = [.. paying.OfType<AdvisedAction>()];
        through.AddRange(DryFitWorth.Of(request, now, () => 0));
        return new(now.Minutes, now.Plan, Ranked(through)) { Unweighed = unweighed };
    }

    /// <summary>The best of what is worth doing now: the first that <see cref="For"/> names, without what cannot be it being planned through to its end.</summary>
    /// <param name="request">All that it rests on.</param>
    /// <returns>The action; null where nothing more pays.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="request"/> is null.</exception>
    public static AdvisedAction? First(AdviceRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var now = new Outlook(request.Plan);
        List<AdvisedAction> through = [];
        Dictionary<AdvisedAction, int> spared = new(ReferenceEqualityComparer.Instance);
        double best = 0;
        void Met(AdvisedAction? action)
        {
            if (action is not null)
            {
                through.Add(action);
                spared.Add(action, now.Spared);
                best = Math.Max(best, action.Net);
            }
        }

        foreach (Weighed weighed in Near(request, now))
        {
            Met(weighed.Through(best));
        }

        foreach (AdvisedAction dryFit in DryFitWorth.Of(request, now, () => best))
        {
            Met(dryFit);
        }

        AdvisedAction? first = Ranked(through) is [var top, ..] ? top : null;
        // Where what was spared might have taken all steps before the best one was met, all is planned through after all.
        return first is null || now.Affords(spared[first]) ? first : For(request).Next is [var named, ..] ? named : null;
    }

    /// <summary>The best action for each valve and kind that is worth more than it takes, best first.</summary>
    private static AdvisedAction[] Ranked(IEnumerable<AdvisedAction> through) => [.. through.Where(a => a.Net > 0)
        .GroupBy(a => (a.Kind, a.Valve, a.Shim, a.Access)).Select(same => same.MaxBy(a => a.Net)!)
        .OrderByDescending(a => a.Net).ThenBy(a => a.Valve).ThenBy(a => a.Kind)];

    /// <summary>All actions weighed with all else left as planned; of them those that are worth planning through, best first.</summary>
    private static Weighed[] Near(AdviceRequest request, Outlook now)
    {
        (double[] Leaves, double Takes)[] stacks = [.. Stacks(request)];
        int valves = request.Plan.Engine.Valves.Count;
        int places = Math.Max(LeastPlaces, MostWeighed / (valves * Math.Clamp(stacks.Length, 1, MostStacks)));
        LocalWorth[] local = [.. Enumerable.Range(0, valves).Select(v => new LocalWorth(now, v, places))];
        IEnumerable<Weighed> all = Enumerable.Range(0, local.Length).SelectMany(v => Readings(request, stacks, now, local[v], v))
            .Concat(ShimWorth.Weighed(request, now, local)).Concat(DepthWorth.Weighed(request, now, local));
        Weighed[] best = [.. all.GroupBy(w => (w.Kind, w.Valve, w.Shim)).SelectMany(same => now.IsSmall ? same : Best([.. same.OrderByDescending(w => w.Net)]))
            .OrderByDescending(w => w.Net)];
        return [.. best.Where(w => w.Kind != ActionKind.Micrometer && (now.IsSmall || w.Net > -Short)).Take(MostActions)
            .Concat(best.Where(w => w.Kind == ActionKind.Micrometer)).OrderByDescending(w => w.Net)];
    }

    /// <summary>Of the blades at one valve, best first, those that are planned through: of those that seem to save nothing the best one alone.</summary>
    private static IEnumerable<Weighed> Best(Weighed[] same) => same.Where((w, i) => i == 0 || w.Saves > Nothing).Take(MostBlades);

    /// <summary>The blades, stacks of two and the bucket at one valve.</summary>
    private static IEnumerable<Weighed> Readings(
        AdviceRequest request, (double[] Leaves, double Takes)[] stacks, Outlook now, LocalWorth local, int v)
    {
        EngineCheck check = now.Request.Check;
        if (request.Off.Contains(check.Engine.Valves[v].Group))
        {
            yield break;
        }

        foreach ((double[] leaves, double takes) in NearestTo(now.Estimate.Valves[v].Mean + check.ShiftAt(v).Millimetres, stacks))
        {
            double blade = Math.Round(leaves.Sum(), 6);
            double spread = Squares.CombinedStandardUncertainty(check.Feel.StandardDeviationOf(leaves.Length), check.Feel.Doubt);
            double[][] chances = check.Feel.ChancesAt(local.Gaps, blade, spread);
            double[] likely = Array.ConvertAll(chances, local.ChanceOf);
            if (blade is > 0 and <= BladeTrial.Thickest && Saving(local, chances, likely) is { } saves)
            {
                yield return new(ActionKind.Blade, v, null, saves, takes, net =>
                    TrialWorth.OfBlade(now, v, blade, leaves.Length, likely, net + takes) is { } outcomes
                        ? new(ActionKind.Blade, TrialWorth.Saving(now, outcomes), takes, v, leaves, null, null, outcomes)
                        : null);
            }
        }

        if (request.Minutes.Bucket is { } bucket && !Valvetrain.HasLever(request.Plan.Engine.Valvetrain.Adjuster) && check.Readings[v].BucketTurns.Count == 0)
        {
            double[] turning = Array.ConvertAll(local.Gaps, FeelProfile.ChanceBucketTurns);
            double[][] chances = [turning, Array.ConvertAll(turning, t => 1 - t)];
            double[] likely = Array.ConvertAll(chances, local.ChanceOf);
            if (Saving(local, chances, likely) is { } saves)
            {
                yield return new(ActionKind.Bucket, v, null, saves, bucket, net =>
                    TrialWorth.OfBucket(now, v, likely, net + bucket) is { } outcomes
                        ? new(ActionKind.Bucket, TrialWorth.Saving(now, outcomes), bucket, v, [], null, null, outcomes)
                        : null);
            }
        }
    }

    /// <summary>Of very many blades and stacks those nearest to the gap that is expected, in their order.</summary>
    private static IEnumerable<(double[] Leaves, double Takes)> NearestTo(double gap, (double[] Leaves, double Takes)[] stacks) => stacks.Length <= MostStacks
        ? stacks
        : stacks.Index().OrderBy(s => Math.Abs(s.Item.Leaves.Sum() - gap)).Take(MostStacks).OrderBy(s => s.Index).Select(s => s.Item);

    /// <summary>Every blade, and every stack of two whose thickness no blade has; of stacks of one thickness the first.</summary>
    private static IEnumerable<(double[] Leaves, double Takes)> Stacks(AdviceRequest request)
    {
        IReadOnlyList<double> blades = request.Blades;
        if (request.Minutes.Blade is { } one)
        {
            foreach (double blade in blades)
            {
                yield return ([blade], one);
            }
        }

        if (request.Minutes.Stack is { } two)
        {
            HashSet<double> known = [.. blades.Select(b => Math.Round(b, 6))];
            foreach ((int i, double thin) in blades.Index())
            {
                foreach (double thick in blades.Skip(i + 1).Where(thick => known.Add(Math.Round(thin + thick, 6))))
                {
                    yield return ([thin, thick], two);
                }
            }
        }
    }

    /// <summary>What the answers save with all else left as planned; null where one of them is foregone.</summary>
    private static double? Saving(LocalWorth local, double[][] chances, double[] answers)
    {
        if (answers.Max() > Foregone)
        {
            return null;
        }

        return local.Least - answers.Index().Sum(a => a.Item * local.LeastUnder(chances[a.Index], a.Item));
    }
}

/// <summary>An action that was weighed with all else left as planned.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Valve">The valve, or null.</param>
/// <param name="Shim">The shim, or null.</param>
/// <param name="Saves">What it saves, about, minutes.</param>
/// <param name="Takes">What it takes, minutes.</param>
/// <param name="Through">Plans it through; null as soon as it is known to leave less than so many minutes.</param>
internal sealed record Weighed(ActionKind Kind, int? Valve, AdvisedShim? Shim, double Saves, double Takes, Func<double, AdvisedAction?> Through)
{
    /// <summary>What it saves less what it takes.</summary>
    public double Net => Saves - Takes;
}
