using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Depth;

/// <summary>What a part was measured with, and the standard uncertainty that it brings where no repeats say better.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Uncertainty">Its standard uncertainty, mm.</param>
public sealed record MeasuringTool(string Name, double Uncertainty)
{
    /// <summary>For depths below a face, the best first. Common practice, no source.</summary>
    public static IReadOnlyList<MeasuringTool> ForDepths { get; } =
        [new("depth micrometer", 0.003), new("dial depth gauge", 0.005), new("calliper", 0.015)];

    /// <summary>For diameters and thicknesses, the best first: the same figures as for shims.</summary>
    public static IReadOnlyList<MeasuringTool> ForSizes { get; } = [Of(Instrument.Micrometer), Of(Instrument.Calliper)];

    private static MeasuringTool Of(Instrument instrument) =>
        new(instrument.Name, Math.Round(Math.Sqrt((instrument.Random * instrument.Random) + (instrument.Systematic * instrument.Systematic)), 3));
}
