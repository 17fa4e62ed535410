using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The check as far as it could be read.</summary>
internal sealed record CheckSection(
    double? Clock, double Temperature, LossPrior Loss, IReadOnlyList<double> Blades,
    ReadingsSection Readings, FittedSection Fitted)
{
    public const double LatestClock = 10_000_000;
    private const int MostBlades = 200;

    /// <summary>The blades of a usual set, mm.</summary>
    public static IReadOnlyList<double> UsualBlades { get; } =
        [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30, 0.35, 0.40];

    public static CheckSection Read(ObjectMembers o, EngineSection engine, InstrumentSet instruments)
    {
        double? clock = o.Number("clock", new(0, LatestClock), "The engine's clock at the check, hours or km.", required: true);
        double? temperature = ReadTemperature(o);
        LossPrior? loss = o.Object("loss", LossSection.Read, "What loss is expected where nothing is known of the engine's past.");
        double[]? blades = o.Numbers(
            "blades", new(0, BladeTrial.Thickest, Measure.Length, LeastIsLeftOut: true), (0, MostBlades), "The person's blades, mm.");
        if (blades is not null && blades.GroupBy(b => Math.Round(b, 6)).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            o.Problem("blades", $"the blade {NumberRule.Text(twice.Key)} stands there twice", "each blade once");
        }

        return new(
            clock,
            temperature ?? ThermalShift.Reference,
            loss ?? LossPrior.Ordinary,
            blades ?? UsualBlades,
            ReadingsSection.Read(o, engine, temperature, required: true),
            FittedSection.Read(o, engine, instruments));
    }

    public static double? ReadTemperature(ObjectMembers o) => o.Number(
        "temperatureC", new(ThermalShift.Coldest, ThermalShift.Hottest, Measure.Temperature), "Engine temperature at the check, degrees C.");
}
