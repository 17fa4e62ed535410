using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Wear.Signs;

/// <summary>
/// One valve far faster than its partners: those of its side in its cylinder, or of its side where it has none there.
/// Evidence is the tail of the difference, for having looked at every valve.
/// </summary>
internal static class PartnerSign
{
    public static IEnumerable<WearSign> Look(SignScene scene, double limit) => Strangest.Of(
        scene, SignKind.FarFromPartner, limit,
        v => scene.WasChanged(v) ? Tail.Above(Apart(scene, v, scene.RateAt)) : Tail.OfBoth(Tail.Above(Apart(scene, v, scene.RateAt)), Tail.Above(Apart(scene, v, scene.MissAt))));

    private static double? Apart(SignScene scene, int valve, Func<int, double?> number)
    {
        int[] partners = Partners(scene, valve);
        double? others = SignScene.RootMean([.. partners.Select(number)]);
        return number(valve) is { } own && own > 0 && others is { } theirs
            ? (own - (theirs / Math.Sqrt(partners.Length))) / Math.Sqrt(1 + (1.0 / partners.Length))
            : null;
    }

    private static int[] Partners(SignScene scene, int valve)
    {
        Valve own = scene.Valves[valve];
        int[] side = [.. scene.OfSide(own.Side).Where(v => v != valve)];
        int[] near = [.. side.Where(v => scene.Valves[v].Cylinder == own.Cylinder)];
        return near.Length > 0 ? near : side;
    }
}

/// <summary>A valve that gains clearance, and more than the spread between valves explains.</summary>
internal static class GainingSign
{
    public static IEnumerable<WearSign> Look(SignScene scene, double limit) => Strangest.Of(
        scene, SignKind.Gaining, limit,
        v => Gains(scene, v) ? Tail.OfBoth(Tail.Above(-scene.RateAt(v)), scene.WasChanged(v) ? 1 : Tail.Above(-scene.MissAt(v))) : 1);

    /// <summary>Whether more clearance was found than the check before had left.</summary>
    private static bool Gains(SignScene scene, int valve)
    {
        IReadOnlyList<WearPoint> points = scene.Wear.Valves[valve];
        return points.Count > 1 && points[^1].WasRead && points[^1].Found.Clearance > points[^2].Left.Clearance;
    }
}

/// <summary>A valve that was left alone and stands elsewhere than its past put it.</summary>
internal static class StepSign
{
    public static IEnumerable<WearSign> Look(SignScene scene, double limit) => Strangest.Of(
        scene, SignKind.Step, limit, v => scene.WasChanged(v) ? null : Tail.Beyond(scene.MissAt(v)));
}

/// <summary>A valve that was changed and stands elsewhere than the change was to bring it.</summary>
internal static class MissedPredictionSign
{
    public static IEnumerable<WearSign> Look(SignScene scene, double limit) => Strangest.Of(
        scene, SignKind.MissedPrediction, limit, v => scene.WasChanged(v) ? Tail.Beyond(scene.MissAt(v)) : null);
}

/// <summary>A rule that looks at every valve.</summary>
internal static class Strangest
{
    /// <summary>The valves whose tail, for having looked at all that the rule is about (the others have none), is at the limit or below; the evidence is that of the strangest.</summary>
    public static IEnumerable<WearSign> Of(SignScene scene, SignKind kind, double limit, Func<int, double?> tailOf)
    {
        double?[] tails = [.. scene.Valves.Select((_, v) => tailOf(v))];
        int looked = tails.Count(t => t is not null);
        int[] strange = [.. tails.Index().Where(t => t.Item is { } tail && Tail.OfChoice(tail, looked) <= limit)
            .OrderBy(t => t.Item).Select(t => t.Index)];
        if (strange.Length > 0)
        {
            yield return new WearSign(kind, strange, Tail.OfChoice(tails[strange[0]]!.Value, looked));
        }
    }
}
