using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Small jobs drawn from a seed: few valves, few shims, so that every choice can be tried.</summary>
internal static class RandomJob
{
    public static PlanRequest Draw(int seed)
    {
        var chance = new SeededChance(seed);
        int valves = chance.Pick(2, 3, 3, 4, 4);
        double ratio = chance.Pick(1.0, 1.0, 1.0, 0.8, 1.5);
        Engine engine = new(
            "Small job",
            ratio == 1 ? Made.Bucket : new Valvetrain(Adjuster.FingerFollower, ratio),
            Valves(chance, valves));
        double[] clearances = [.. engine.Valves.Select(v => v.Band.Middle - chance.Uniform(-0.05, 0.08))];
        EngineCheck check = new(engine, clearances.Select(c => Reading(chance, c)));
        Thickness[] fitted = [.. engine.Valves.Select(_ => Shim(chance, 2.45, 2.60, 0.05))];
        return new(check, fitted, Drawn(chance), Costs(chance, engine), Rules(chance));
    }

    private static IEnumerable<Valve> Valves(SeededChance chance, int valves)
    {
        int groups = chance.Whole(1, 3);
        for (int v = 0; v < valves; v++)
        {
            double low = 0.05 * chance.Whole(2, 4);
            yield return new Valve(
                $"V{v + 1}", 1, chance.Pick(ValveSide.Intake, ValveSide.Exhaust), $"group {chance.Whole(1, groups)}",
                new ClearanceBand(low, low + chance.Pick(0.05, 0.06, 0.08, 0.10)));
        }
    }

    private static ValveReadings Reading(SeededChance chance, double clearance) => chance.Whole(0, 5) switch
    {
        0 => ValveReadings.None,
        1 or 2 => Made.Felt(Enumerable.Range(-1, 3).Select(k =>
        {
            double blade = Math.Max(0.03, Math.Round(clearance + (0.03 * k), 2));
            return (blade, FeltAt(clearance + chance.Normal(0, 0.006) - blade));
        })),
        _ => Made.Value(Math.Round(clearance + chance.Normal(0, 0.01), 3), chance.Pick(0.005, 0.01, 0.02, 0.03)),
    };

    private static Feel FeltAt(double play) =>
        play < -0.025 ? Feel.No : play < -0.005 ? Feel.Firm : play < 0.017 ? Feel.Light : Feel.Loose;

    /// <summary>Half of the jobs have sizes twice as close, so that one valve has a choice.</summary>
    private static double Pitch(SeededChance chance) => chance.Pick(0.05, 0.025);

    private static Thickness Shim(SeededChance chance, double from, double to, double pitch) => new(
        Math.Round(from + (pitch * chance.Whole(0, (int)Math.Round((to - from) / pitch))), 3),
        chance.Pick(Instrument.Marked, Instrument.Marked, Instrument.Micrometer, Instrument.Calliper));

    private static Stock Drawn(SeededChance chance)
    {
        double pitch = Pitch(chance);
        DrawerShims[] drawer =
        [
            .. Enumerable.Range(0, chance.Whole(0, 6)).Select(_ => new DrawerShims(Shim(chance, 2.40, 2.60, pitch), chance.Whole(0, 2))),
        ];

        // A size may be offered twice, and it may cost nothing: a tie with the drawer that the tie rules have to settle.
        PurchasableSize[] sizes =
        [
            .. Enumerable.Range(0, chance.Whole(0, 4)).Select(_ =>
                new PurchasableSize(Made.Marked(Math.Round(2.40 + (0.025 * chance.Whole(0, 8)), 3)), chance.Pick(0.0, 0.0, 4.0, 8.0, 25.0))),
        ];
        return new(drawer, sizes);
    }

    private static PlanCosts Costs(SeededChance chance, Engine engine) => new(
        chance.Pick(0.0, 30.0, 90.0, 240.0),
        engine.AccessGroups.Where(_ => chance.Happens(0.8)).ToDictionary(g => g, _ => chance.Pick(0.0, 0.0, 10.0, 25.0, 60.0)),
        chance.Pick(0.0, 3.0),
        chance.Pick(0.5, 1.0));

    private static PlanRules Rules(SeededChance chance) => chance.Whole(0, 4) switch
    {
        0 => new PlanRules(keepFloor: 0.9),
        1 => new PlanRules(keepFloor: 0.7, fitFloor: 0.3),
        2 => new PlanRules(keepFloor: 0.1),
        _ => PlanRules.Default,
    };
}
