using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>
/// Jobs as they come: every valve train, 2 to 24 valves, worn a little or a lot, felt with the blades of a set; a drawer with nothing or
/// up to 200 shims, and a shop or none. The same for the same seed.
/// </summary>
internal static class RealisticJob
{
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30];

    public static PlanRequest Draw(int seed, double? horizon = null)
    {
        var chance = new SeededChance(seed);
        Adjuster adjuster = (Adjuster)chance.Whole(0, 4);
        double ratio = adjuster is Adjuster.FingerFollower or Adjuster.Screw ? Math.Round(chance.Uniform(0.6, 1.5), 2) : 1;
        var train = new Valvetrain(adjuster, ratio, adjuster == Adjuster.Screw ? 0.75 : null);
        Engine engine = new("Realistic", train, Valves(chance, chance.Pick(2, 4, 4, 8, 12, 16, 16, 24), adjuster));
        double shared = chance.Exponential(chance.Pick(0.02, 0.04, 0.06), 0.24);
        ValveReadings[] readings = [.. engine.Valves.Select(v => Felt(chance, Clearance(chance, v.Band, shared), v.Band))];
        Thickness[] fitted = train.HasShims ? [.. engine.Valves.Select(_ => Shim(chance, 2.2, 2.8))] : [];
        double access = adjuster is Adjuster.ShimUnderBucket or Adjuster.GradedBucket ? 25 : chance.Pick(0, 10);
        var costs = new PlanCosts(access: engine.AccessGroups.ToDictionary(g => g, _ => access));
        return new(
            new EngineCheck(engine, readings), fitted, train.HasShims ? Stock(chance) : null, costs,
            horizon: horizon is { } time ? WearHorizon.Usual(engine, new UsualWear(100), time) : null);
    }

    private static IEnumerable<Valve> Valves(SeededChance chance, int valves, Adjuster adjuster)
    {
        (double intake, double exhaust) = (0.05 * chance.Whole(2, 4), 0.05 * chance.Whole(4, 5));
        double width = chance.Pick(0.05, 0.06, 0.08, 0.10);
        int banks = valves >= 12 ? chance.Pick(1, 2) : 1;
        bool isOneCover = adjuster == Adjuster.Screw || chance.Happens(0.2);
        for (int v = 0; v < valves; v++)
        {
            bool isIntake = v % 2 == 0;
            string bank = $"bank {v / 2 % banks}";
            double low = isIntake ? intake : exhaust;
            yield return new Valve(
                $"V{v + 1}", (v / 2) + 1, isIntake ? ValveSide.Intake : ValveSide.Exhaust,
                isOneCover ? bank : $"{bank} {(isIntake ? "intake" : "exhaust")}", new ClearanceBand(low, low + width));
        }
    }

    private static double Clearance(SeededChance chance, ClearanceBand band, double shared) =>
        band.Middle + (band.Width / 4 * chance.Normal()) - shared - chance.Exponential(0.02, 0.2);

    /// <summary>Blades upwards from one that should go in until one does not, as a hand does it.</summary>
    private static ValveReadings Felt(SeededChance chance, double clearance, ClearanceBand band)
    {
        List<BladeTrial> trials = [];
        int from = Math.Max(0, Array.FindLastIndex(Blades, b => b < Math.Max(clearance, band.Low - 0.06)) - chance.Whole(0, 1));
        for (int b = from; b < Math.Min(Blades.Length, from + 3); b++)
        {
            trials.Add(new BladeTrial(Blades[b], FeelAt(clearance - Blades[b] + chance.Normal(0, 0.007))));
        }

        return new(trials);
    }

    private static Feel FeelAt(double play) => play < -0.025 ? Feel.No : play < -0.005 ? Feel.Firm : play < 0.017 ? Feel.Light : Feel.Loose;

    private static Thickness Shim(SeededChance chance, double from, double to)
    {
        bool isMeasured = chance.Happens(0.6);
        double size = chance.Uniform(from, to);
        return isMeasured ? Made.Measured(Math.Round(size, 3)) : Made.Marked(Math.Round(size / 0.05) * 0.05);
    }

    private static Stock Stock(SeededChance chance)
    {
        int shims = chance.Pick(0, 5, 20, 60, 200);
        PurchasableSize[] sizes = chance.Happens(0.5)
            ? [.. new SizeRange(1.80, 3.20, chance.Pick(0.025, 0.05), chance.Pick(4, 8)).Sizes(Instrument.Marked)]
            : [];
        return new([.. Enumerable.Range(0, shims).Select(_ => new DrawerShims(Shim(chance, 2.0, 3.0), 1))], sizes);
    }
}
