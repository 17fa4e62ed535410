using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Reference;

/// <summary>The smallest engine of all, for examples that speak of one valve.</summary>
internal static class OneValveEngine
{
    public static EngineCheck Check(
        ClearanceBand band,
        ValveReadings readings,
        Valvetrain? train = null,
        double temperature = ThermalShift.Reference,
        double? clearancePerDegree = null)
    {
        var valve = new Valve("V", 1, ValveSide.Intake, "cover", band);
        var engine = new Engine("one valve", train ?? new Valvetrain(Adjuster.ShimUnderBucket), [valve], clearancePerDegree);
        return new EngineCheck(engine, [readings], temperature);
    }

    /// <summary>A clearance measured about as well as one can be.</summary>
    public static ValveReadings Measured(double clearance) =>
        new(values: [new DirectValue(clearance, DirectValue.LeastUncertainty)]);

    public static ValveReadings Felt(params (double Blade, Feel Feel)[] trials) =>
        new(trials: trials.Select(t => new BladeTrial(t.Blade, t.Feel)));
}
