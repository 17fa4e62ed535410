using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Reference.Solver;

/// <summary>
/// A random plan job, the same for the same number: 8 to 16 valves in 2 to 4 access groups, 40 to 120 shims in the
/// drawer, on every other job a shop, and drawers too poor for every valve.
/// </summary>
internal static class PlanJob
{
    public static PlanRequest Make(int number)
    {
        var random = new Random(number);
        int valves = random.Next(8, 17);
        int groups = random.Next(2, 5);
        bool richDrawer = random.Next(3) > 0;
        Engine engine = MakeEngine(random, valves, groups);
        Thickness[] fitted = [.. engine.Valves.Select(_ => Measured(random, 2.2, 2.9))];
        var costs = new PlanCosts(
            redo: random.Next(20, 200),
            access: engine.AccessGroups.ToDictionary(g => g, _ => (double)random.Next(5, 60)),
            swap: random.Next(1, 6),
            minutesPerCurrency: 1.5);
        return new PlanRequest(
            new EngineCheck(engine, engine.Valves.Select(v => Read(random, v.Band))),
            fitted,
            new Stock(MakeDrawer(random, richDrawer), MakeShop(random)),
            costs);
    }

    private static Engine MakeEngine(Random random, int valves, int groups)
    {
        ClearanceBand[] bands = [new(0.12, 0.18), new(0.20, 0.26)];
        double ratio = random.Next(3) switch { 0 => 1.4, _ => 1 };
        Adjuster adjuster = ratio == 1 ? Adjuster.ShimUnderBucket : Adjuster.FingerFollower;
        return new Engine("random", new Valvetrain(adjuster, ratio), Enumerable.Range(0, valves).Select(v =>
            new Valve($"V{v}", 1 + (v / 2), (ValveSide)(v % 2), $"group {random.Next(groups)}", bands[v % 2])));
    }

    /// <summary>Some valves in band, some too tight, some of which little is known, a few hopeless.</summary>
    private static ValveReadings Read(Random random, ClearanceBand band)
    {
        double clearance = random.Next(12) switch
        {
            0 => band.Low - 0.30,
            < 6 => band.Low - (0.12 * random.NextDouble()) + 0.01,
            _ => band.Low + (band.Width * random.NextDouble()),
        };
        return random.Next(4) == 0
            ? new ValveReadings([new BladeTrial(Math.Max(0.05, Math.Round(clearance, 2)), Feel.Light)])
            : new ValveReadings(values: [new DirectValue(clearance, 0.004 + (0.016 * random.NextDouble()))]);
    }

    private static DrawerShims[] MakeDrawer(Random random, bool rich)
    {
        int pieces = random.Next(40, 121);
        List<DrawerShims> drawer = [];
        while (drawer.Sum(d => d.Count) < pieces)
        {
            int count = Math.Min(random.Next(1, 4), pieces - drawer.Sum(d => d.Count));
            drawer.Add(new DrawerShims(rich ? Measured(random, 2.0, 2.9) : Measured(random, 2.5, 3.2), count));
        }

        return [.. drawer];
    }

    private static PurchasableSize[] MakeShop(Random random) => random.Next(2) == 0
        ? []
        : [.. new SizeRange(2.10, 2.80, 0.05, random.Next(1, 12)).Sizes(Instrument.Marked)];

    private static Thickness Measured(Random random, double from, double to) => new(
        Math.Round(from + ((to - from) * random.NextDouble()), 2),
        random.Next(3) == 0 ? Instrument.Marked : Instrument.Micrometer);
}
