using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>How far before or after its dead centre a side opens and closes, crank degrees.</summary>
/// <param name="Opens">Intake: before top dead centre; exhaust: before bottom dead centre.</param>
/// <param name="Closes">Intake: after bottom dead centre; exhaust: after top dead centre.</param>
public sealed record CamEvents(double Opens, double Closes);

/// <summary>Cylinders and cam events of an engine card. Read and checked; the crank stops will use it.</summary>
/// <param name="FiringOrder">Cylinders in the order in which they fire.</param>
/// <param name="FiringAngles">When each fires, crank degrees; null for even firing.</param>
/// <param name="Marks">Further marks, crank degrees.</param>
/// <param name="StopsAnywhere">Whether the crank may stop at any angle instead of at marks.</param>
/// <param name="RampDegrees">By how much each opening is widened at both ends, crank degrees.</param>
/// <param name="Intake">Intake events, or null.</param>
/// <param name="Exhaust">Exhaust events, or null.</param>
public sealed record LayoutCard(
    IReadOnlyList<double> FiringOrder, IReadOnlyList<double>? FiringAngles, IReadOnlyList<double> Marks,
    bool StopsAnywhere, double RampDegrees, CamEvents? Intake, CamEvents? Exhaust)
{
    private static readonly NumberRule Angle = new(-720, 720);
    private static readonly NumberRule EventAngle = new(-180, 180);

    private static readonly Dictionary<string, bool> Stops = new(StringComparer.Ordinal)
    {
        ["marks"] = false,
        ["anywhere"] = true,
    };

    internal static LayoutCard? Read(ObjectMembers o)
    {
        double[]? order = o.Numbers("firingOrder", new(1, 64), (1, 64), "Cylinders in the order in which they fire.", required: true);
        double[]? angles = o.Numbers("firingAngles", Angle, (1, 64), "When each of them fires, crank degrees; even unless given.");
        double[]? marks = o.Numbers("marks", Angle, (0, 64), "Marks besides the two dead centres of every cylinder, crank degrees.");
        bool? anywhere = o.Choice("stopsAt", Stops, "Whether the crank may stop at marks only or at any angle.");
        double? ramp = o.Number("rampDeg", new(0, 180), "By how much each opening is widened at both ends, crank degrees.");
        CamEvents? intake = o.Object(
            "intake", e => Events(e, "opensBtdc", "closesAbdc"), "When the intake valves open before top and close after bottom dead centre.");
        CamEvents? exhaust = o.Object(
            "exhaust", e => Events(e, "opensBbdc", "closesAtdc"), "When the exhaust valves open before bottom and close after top dead centre.");
        if (order is not null && angles is not null && order.Length != angles.Length)
        {
            o.Problem("firingAngles", $"found {angles.Length} angles", $"one for each of the {order.Length} cylinders of the firing order");
        }

        return order is null ? null : new(order, angles, marks ?? [], anywhere ?? false, ramp ?? 20, intake, exhaust);
    }

    private static CamEvents? Events(ObjectMembers o, string opens, string closes)
    {
        double? open = o.Number(opens, EventAngle, "Crank degrees.", required: true);
        double? close = o.Number(closes, EventAngle, "Crank degrees.", required: true);
        return open is { } a && close is { } b ? new CamEvents(a, b) : null;
    }
}
