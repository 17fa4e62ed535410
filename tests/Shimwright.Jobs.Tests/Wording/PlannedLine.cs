using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Jobs.Tests.Wording;

/// <summary>Plans of a few valves in the band 0.12-0.18 mm, for what is said of their lines.</summary>
internal static class PlannedLine
{
    public static Valvetrain Bucket { get; } = new(Adjuster.ShimUnderBucket);

    public static ValveReadings Read(double millimetres, double uncertainty) => new(values: [new DirectValue(millimetres, uncertainty)]);

    public static Thickness Marked(double millimetres) => new(millimetres, Instrument.Marked);

    public static Stock Drawer(params double[] thicknesses) => new([.. thicknesses.Select(mm => new DrawerShims(Marked(mm), 1))], []);

    /// <summary>The plan for an engine of these valves, each with its reading and the thickness in it.</summary>
    public static ShimPlan Plan(Valvetrain train, Stock stock, params (ValveReadings Reading, double Fitted)[] valves)
    {
        var engine = new Engine("Loaner", train, ValvesOf(valves.Length));
        Thickness[] fitted = train.HasShims ? [.. valves.Select(v => Marked(v.Fitted))] : [];
        return Planner.Plan(new PlanRequest(new EngineCheck(engine, valves.Select(v => v.Reading)), fitted, stock)).Chosen;
    }

    /// <summary>I1, I2, … behind one cover.</summary>
    public static IEnumerable<Valve> ValvesOf(int count) =>
        Enumerable.Range(1, count).Select(k => new Valve($"I{k}", 1, ValveSide.Intake, "cover", new ClearanceBand(0.12, 0.18)));
}
