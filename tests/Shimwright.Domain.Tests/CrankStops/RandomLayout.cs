using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Tests.CrankStops;

/// <summary>
/// Random engines in whole crank degrees: 1 to 6 cylinders in random order with even or uneven angles, 2 to 4 valves each,
/// long and short openings, ramps up to 150, further marks, and now and then a valve with events of its own or an
/// interval more off its heel.
/// </summary>
internal static class RandomLayout
{
    public static CrankLayout Of(SeededChance chance)
    {
        int count = Math.Max(chance.Whole(1, 6), chance.Whole(1, 6));
        int[] order = chance.Shuffled(Enumerable.Range(1, count));
        double[]? angles = chance.Happens(0.5) ? Uneven(chance, count) : null;
        CamEvents intake = Events(chance);
        CamEvents exhaust = Events(chance);
        TimedValve[] valves =
        [
            .. Enumerable.Range(1, count).SelectMany(cylinder => Sides(chance).Select((side, k) => new TimedValve(
                $"V{cylinder}.{k}",
                cylinder,
                side,
                chance.Happens(0.15) ? Events(chance) : side == ValveSide.Intake ? intake : exhaust,
                chance.Happens(0.1) ? [new OffHeel(chance.Whole(-720, 720), chance.Whole(1, 90))] : []))),
        ];
        double ramp = chance.Pick(0, 10, 20, 60, 120, 150);
        double[] marks = [.. Enumerable.Range(0, chance.Whole(0, 4)).Select(_ => (double)chance.Whole(-720, 720))];
        return new CrankLayout(order, angles, valves, ramp, marks);
    }

    /// <summary>Two to four valves, both sides among them.</summary>
    private static IEnumerable<ValveSide> Sides(SeededChance chance)
    {
        ValveSide[] further = [.. Enumerable.Range(0, chance.Whole(0, 2)).Select(_ => chance.Pick(ValveSide.Intake, ValveSide.Exhaust))];
        return [ValveSide.Intake, ValveSide.Exhaust, .. further];
    }

    private static CamEvents Events(SeededChance chance) => new(chance.Whole(-40, 90), chance.Whole(-30, 90));

    private static double[] Uneven(SeededChance chance, int count) =>
        [.. chance.Shuffled(Enumerable.Range(1, 719)).Take(count - 1).Append(0).Order().Select(a => (double)a)];
}
