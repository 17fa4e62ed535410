using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;

namespace Shimwright.Benchmarks;

/// <summary>
/// The jobs that are timed: an invented engine, worn, felt with three blades a valve, and a drawer of shims that
/// were all measured, so that no two are alike and every one is a choice of its own (the hard case for a search).
/// </summary>
public sealed class BenchJob
{
    private const int Seed = 20_001;
    private const double AccessMinutes = 25;
    private const double Interval = 30;
    private static readonly UsualWear Wear = new(Interval);
    private readonly string _name;

    private BenchJob(int valves, int groups, int shims)
    {
        _name = $"{valves} x {shims}, {groups} groups";
        var random = new Random(Seed);
        Engine engine = EngineOf(valves, groups);
        var check = new EngineCheck(engine, engine.Valves.Select(v => Felt(v, random)).ToList());
        Thickness[] fitted = [.. engine.Valves.Select(_ => Measured(2.2 + (0.6 * random.NextDouble())))];
        DrawerShims[] drawer = [.. Enumerable.Range(0, shims).Select(_ => new DrawerShims(Measured(2.0 + random.NextDouble()), 1))];
        var shop = new SizeRange(1.8, 3.2, 0.05, 6);
        Request = new PlanRequest(
            check,
            fitted,
            new Stock(drawer, [.. shop.Sizes(Instrument.Marked)]),
            new PlanCosts(access: engine.AccessGroups.ToDictionary(g => g, _ => AccessMinutes)));
        Lasting = With(check, WearHorizon.Usual(engine, Wear, Interval));
        WearState[] states = [.. engine.Valves.Select(v => new WearState(
            v.Band.Middle - (0.03 * random.NextDouble()), 0.03 * random.NextDouble() / Interval, 1e-4, -5e-5 / Interval, 8e-5 / (Interval * Interval)))];
        LastingWithPast = With(check.After(new HistoryPrior(states.Select(s => s.Expected()))), WearHorizon.Known(states, Wear, Interval));
    }

    /// <summary>The blades of whoever felt it, mm.</summary>
    public static IReadOnlyList<double> Blades { get; } = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25];

    public static BenchJob OneCylinder { get; } = new(4, 2, 50);

    public static BenchJob FourCylinders { get; } = new(16, 2, 500);

    public static BenchJob SixCylinders { get; } = new(24, 4, 200);

    public static IReadOnlyList<BenchJob> All { get; } = [OneCylinder, FourCylinders, SixCylinders];

    public PlanRequest Request { get; }

    /// <summary>The same job where the clearances are to stay in band for an interval.</summary>
    public PlanRequest Lasting { get; }

    /// <summary>The same where every valve has a past of its own, so that no two share their rates.</summary>
    public PlanRequest LastingWithPast { get; }

    /// <summary>Valves x shims in the drawer, and groups.</summary>
    public override string ToString() => _name;

    private PlanRequest With(EngineCheck check, WearHorizon horizon) =>
        new(check, Request.Fitted, Request.Stock, Request.Costs, Request.Rules, horizon);

    private static Engine EngineOf(int valves, int groups)
    {
        var intake = new ClearanceBand(0.10, 0.17);
        var exhaust = new ClearanceBand(0.17, 0.24);
        int banks = groups / 2;
        return new Engine(
            "Bench",
            new Valvetrain(Adjuster.ShimUnderBucket),
            Enumerable.Range(0, valves).Select(v => v % 2 == 0
                ? new Valve($"I{(v / 2) + 1}", (v / 4) + 1, ValveSide.Intake, $"intake cam {v / 2 % banks}", intake)
                : new Valve($"E{(v / 2) + 1}", (v / 4) + 1, ValveSide.Exhaust, $"exhaust cam {v / 2 % banks}", exhaust)));
    }

    /// <summary>The blade nearest to a worn clearance and its neighbours, each with the feel that is likeliest there.</summary>
    private static ValveReadings Felt(Valve valve, Random random)
    {
        double clearance = valve.Band.Middle + 0.02 - (0.09 * random.NextDouble());
        IEnumerable<double> tried = Blades.OrderBy(b => Math.Abs(b - clearance)).Take(3);
        return new ValveReadings(tried.Select(b => new BladeTrial(b, Likeliest(clearance, b))));
    }

    private static Feel Likeliest(double clearance, double blade) =>
        Enum.GetValues<Feel>().MaxBy(f => FeelProfile.Default.Chance(f, clearance, blade));

    private static Thickness Measured(double millimetres) => new(Math.Round(millimetres, 3), Instrument.Micrometer);
}
