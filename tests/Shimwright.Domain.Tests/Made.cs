using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Tests;

/// <summary>Small engines, checks and jobs with everything filled in that a test does not care about.</summary>
internal static class Made
{
    public static ClearanceBand Band { get; } = new(0.12, 0.18);

    public static Valvetrain Bucket { get; } = new(Adjuster.ShimUnderBucket);

    public static Valve Valve(
        string id = "I1", ValveSide side = ValveSide.Intake, string access = "cover", ClearanceBand? band = null) =>
        new(id, 1, side, access, band ?? Band);

    public static Engine Engine(params IEnumerable<Valve> valves) => new("Loaner", Bucket, valves);

    public static Engine Engine(Valvetrain train, params IEnumerable<Valve> valves) => new("Loaner", train, valves);

    public static ValveReadings Value(double millimetres, double uncertainty = DirectValue.UsualUncertainty) =>
        new(values: [new DirectValue(millimetres, uncertainty)]);

    public static ValveReadings Felt(params IEnumerable<(double Blade, Feel Feel)> trials) =>
        new(trials.Select(t => new BladeTrial(t.Blade, t.Feel)));

    public static Thickness Marked(double millimetres) => new(millimetres, Instrument.Marked);

    public static Thickness Measured(double millimetres) => new(millimetres, Instrument.Micrometer);

    /// <summary>A check of valves of one kind, one reading each.</summary>
    public static EngineCheck Check(params ValveReadings[] readings) =>
        new(Engine(readings.Select((_, v) => Valve($"I{v + 1}"))), readings);

    /// <summary>The estimate of one valve that was read as a number.</summary>
    public static ClearanceDistribution Clearance(double millimetres, double uncertainty = DirectValue.UsualUncertainty) =>
        EngineEstimate.From(Check(Value(millimetres, uncertainty))).Valves[0];

    /// <summary>The estimate on which the planner would work.</summary>
    public static EngineEstimate EstimateFor(PlanRequest request) =>
        EngineEstimate.From(request.Check, request.FinestChange);
}
