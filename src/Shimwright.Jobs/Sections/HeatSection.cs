using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>What heat does to the gaps: κ of both sides as one number, or of each.</summary>
internal static class HeatSection
{
    private static readonly NumberRule Kappa = new(-0.01, 0.01);

    public static HeatGain? Read(ObjectMembers engine) =>
        engine.Object<Boxed>("temperature", o => new(ReadKappa(o)), "What heat does to the gaps.")?.Value;

    private static HeatGain? ReadKappa(ObjectMembers o) => o.NumberOrObject(
        "kappaMmPerC", Kappa, kappa => new HeatGain(kappa, kappa), ReadSides,
        "Clearance gained per degree above 20 degrees C, mm, or that of each side; left out where unknown.");

    private static HeatGain? ReadSides(ObjectMembers o)
    {
        double? intake = o.Number("intake", Kappa, "That of the intake valves.", required: true);
        double? exhaust = o.Number("exhaust", Kappa, "That of the exhaust valves.", required: true);
        return intake is { } i && exhaust is { } e ? new HeatGain(i, e) : null;
    }

    private sealed record Boxed(HeatGain? Value);
}
