using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear.Signs;

/// <summary>
/// All valves off the same way at a temperature that is not that of the check before, κ unknown: evidence is the tail of
/// their mean miss, either way.
/// </summary>
internal static class TemperatureSign
{
    public static IEnumerable<WearSign> Look(SignScene scene, double limit)
    {
        IReadOnlyList<WearCheck> checks = scene.Wear.Checks;
        if (checks.Count < 2 || checks[^1].Check.ShiftAt(0).IsKnown
            || Math.Abs(checks[^1].Check.Temperature - checks[^2].Check.Temperature) <= ThermalShift.Tolerated)
        {
            yield break;
        }

        int[] all = [.. Enumerable.Range(0, scene.Valves.Count)];
        double evidence = Tail.Beyond(SignScene.RootMean([.. all.Select(scene.MissAt)]));
        if (evidence <= limit)
        {
            yield return new WearSign(SignKind.Temperature, all, evidence);
        }
    }
}

/// <summary>
/// Valves that may, an interval from now, be too tight for the thinnest shim that can be had. Evidence is the chance of it for the
/// valve that is nearest to it.
/// </summary>
internal static class RoomSign
{
    /// <summary>The chance from which it is said.</summary>
    private const double Near = 0.05;

    public static IEnumerable<WearSign> Look(EngineWear wear, double? thinnest)
    {
        var leverage = Leverage.Of(wear.Engine.Valvetrain);
        double[] chances = [.. wear.Engine.Valves.Select((valve, v) => thinnest is { } thin && wear.Checks[^1].Fitted[v] is { } fitted
            ? Chance(wear, v, valve.Band.Low - leverage.AtTheGap(fitted.Millimetres - thin))
            : 0)];
        int[] near = [.. chances.Index().Where(c => c.Item >= Near).OrderByDescending(c => c.Item).Select(c => c.Index)];
        if (near.Length > 0)
        {
            yield return new WearSign(SignKind.RoomNearlyUsed, near, chances[near[0]]);
        }
    }

    private static double Chance(EngineWear wear, int valve, double lowest)
    {
        WearState next = wear.Valves[valve][^1].Found.After(wear.Usual.Interval, wear.Usual.Diffusion);
        return StandardNormal.Cdf((lowest - next.Clearance) / next.ClearanceSpread);
    }
}
