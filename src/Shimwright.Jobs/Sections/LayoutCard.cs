using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>Cylinders and cam events of an engine card, as far as they could be read.</summary>
/// <param name="FiringOrder">Cylinders in the order in which they fire.</param>
/// <param name="FiringAngles">When each fires, crank degrees; null for even firing.</param>
/// <param name="Marks">Further marks, crank degrees.</param>
/// <param name="StopsAnywhere">Whether the crank may stop at any angle instead of at marks.</param>
/// <param name="RampDegrees">By how much each opening is widened at both ends, crank degrees.</param>
/// <param name="Intake">Intake events, or null.</param>
/// <param name="Exhaust">Exhaust events, or null.</param>
/// <param name="Turning">How the crank turns, in the card's words, or null.</param>
/// <param name="EventsAt">The lift at which the events are given, mm.</param>
public sealed record LayoutCard(
    IReadOnlyList<int> FiringOrder, IReadOnlyList<double>? FiringAngles, IReadOnlyList<double> Marks,
    bool StopsAnywhere, double RampDegrees, CamEvents? Intake, CamEvents? Exhaust, string? Turning, double EventsAt)
{
    /// <summary>The most cylinders that are taken.</summary>
    internal const int MostCylinders = 64;

    private static readonly NumberRule Angle = new(-720, 720);
    private static readonly NumberMember Ramp = new("rampDeg", new(0, CamRamp.Widest), "By how much each opening is widened at both ends, crank degrees, for events at 1 mm lift.", 20);
    private static readonly NumberMember Lift = new("eventsAtMm", new(0, CamRamp.Highest, Measure.Length), "The lift at which the events are given, mm; 0 where they are the true ones.", 1);

    private static readonly Dictionary<string, bool> Stops = new(StringComparer.Ordinal)
    {
        ["marks"] = false,
        ["anywhere"] = true,
    };

    /// <summary>The ramp where the card says none, crank degrees.</summary>
    public static double UsualRamp => Ramp.Usual;

    /// <summary>The lift at which events are given where the card does not say, mm.</summary>
    public static double UsualEventsAt => Lift.Usual;

    /// <summary>By how much openings are widened.</summary>
    public CamRamp ToRamp() => new(RampDegrees, EventsAt);

    /// <summary>The events of a side, or null.</summary>
    /// <param name="side">Intake or exhaust.</param>
    /// <returns>The side's events.</returns>
    public CamEvents? EventsOf(ValveSide side) => side == ValveSide.Intake ? Intake : Exhaust;

    internal static LayoutCard? Read(ObjectMembers o)
    {
        int[]? order = ReadOrder(o);
        double[]? angles = o.Numbers("firingAngles", Angle, (1, MostCylinders), "When each of them fires, crank degrees; even unless given.");
        double[]? marks = o.Numbers("marks", Angle, (0, 64), "Marks besides the two dead centres of every cylinder, crank degrees.");
        bool? anywhere = o.Choice("stopsAt", Stops, "Whether the crank may stop at marks only or at any angle.");
        double ramp = o.Number(Ramp);
        double eventsAt = o.Number(Lift);
        CamEvents? intake = o.Object(
            "intake", e => EventsSection.Read(e, "opensBtdc", "closesAbdc"), "When the intake valves open before top and close after bottom dead centre.");
        CamEvents? exhaust = o.Object(
            "exhaust", e => EventsSection.Read(e, "opensBbdc", "closesAtdc"), "When the exhaust valves open before bottom and close after top dead centre.");
        string? turning = o.Name("turning", "How the crank turns and from where it is seen, such as \"clockwise, seen from the left\".");
        NoteAngles(o, order, angles);
        return order is null ? null : new(order, angles, marks ?? [], anywhere ?? false, ramp, intake, exhaust, turning, eventsAt);
    }

    private static int[]? ReadOrder(ObjectMembers o)
    {
        double[]? order = o.Numbers("firingOrder", new(1, MostCylinders), (1, MostCylinders), "Cylinders in the order in which they fire.", required: true);
        if (order is null)
        {
            return null;
        }

        if (order.FirstOrDefault(c => c != Math.Floor(c)) is var broken && broken != 0)
        {
            o.Problem("firingOrder", $"found {NumberRule.Text(broken)}", "cylinders are whole numbers");
            return null;
        }

        if (order.GroupBy(c => c).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            o.Problem("firingOrder", $"cylinder {NumberRule.Text(twice.Key)} stands there {twice.Count()} times", "each cylinder fires once in a cycle");
            return null;
        }

        return [.. order.Select(c => (int)c)];
    }

    private static void NoteAngles(ObjectMembers o, int[]? order, double[]? angles)
    {
        if (angles is null)
        {
            return;
        }

        if (order is not null && order.Length != angles.Length)
        {
            o.Problem("firingAngles", $"found {angles.Length} angles", $"one for each of the {order.Length} cylinders of the firing order");
        }

        for (int k = 1; k < angles.Length; k++)
        {
            if (angles[k] < angles[k - 1])
            {
                o.Problem("firingAngles", $"found {NumberRule.Text(angles[k])} after {NumberRule.Text(angles[k - 1])}", "the angles rise with the firing order");
            }
        }

        if (angles[^1] - angles[0] >= CrankAngle.Cycle)
        {
            o.Problem("firingAngles", $"found {NumberRule.Text(angles[0])} to {NumberRule.Text(angles[^1])}", "all cylinders fire within one cycle of 720 degrees");
        }
    }
}

/// <summary>Opening and closing of a side or of one valve.</summary>
internal static class EventsSection
{
    private static readonly NumberRule Angle = new(-CamEvents.Furthest, CamEvents.Furthest);

    public static CamEvents? Read(ObjectMembers o, string opens, string closes)
    {
        double? open = o.Number(opens, Angle, "Crank degrees before its dead centre.", required: true);
        double? close = o.Number(closes, Angle, "Crank degrees after its dead centre.", required: true);
        if (open is not { } a || close is not { } b)
        {
            return null;
        }

        if (!CamEvents.ArePossible(a, b))
        {
            o.Problem("", $"found {NumberRule.Text(a)} and {NumberRule.Text(b)}", "a valve that closes before it opens has no opening at all");
            return null;
        }

        return new CamEvents(a, b);
    }
}
