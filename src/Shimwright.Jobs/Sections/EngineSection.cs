using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The engine as far as it could be read: what the other sections refer to, right or wrong.</summary>
internal sealed record EngineSection(
    string? Name, Adjuster? Adjuster, double Ratio, double? Pitch, HeatGain? Heat, GapSense Sense,
    IReadOnlyList<ValveSection> Valves, bool HasLayout, LayoutCard? Layout, bool HasWear, WearCard? Wear)
{
    private static readonly Dictionary<string, Adjuster> Adjusters = new(StringComparer.Ordinal)
    {
        ["shim-under-bucket"] = Domain.Engines.Adjuster.ShimUnderBucket,
        ["shim-over-bucket"] = Domain.Engines.Adjuster.ShimOverBucket,
        ["graded-bucket"] = Domain.Engines.Adjuster.GradedBucket,
        ["finger-follower"] = Domain.Engines.Adjuster.FingerFollower,
        ["screw"] = Domain.Engines.Adjuster.Screw,
    };

    private static readonly Dictionary<string, GapSense> Senses = new(StringComparer.Ordinal)
    {
        ["opening"] = GapSense.Opening,
        ["closing"] = GapSense.Closing,
    };

    private static readonly NumberMember RatioMember = new(
        "ratio", new(Valvetrain.LeastRatio, Valvetrain.GreatestRatio), "Clearance change at the gap per unit of shim or screw travel; 1 under a direct-acting cam.", 1);

    /// <summary>The ratio where the card says none.</summary>
    public static double UsualRatio => RatioMember.Usual;

    /// <summary>An engine of which nothing could be read.</summary>
    public static EngineSection None { get; } = new(null, null, RatioMember.Usual, null, null, GapSense.Opening, [], false, null, false, null);

    public IEnumerable<string> Ids => Valves.Select(v => v.Id).OfType<string>();

    public static EngineSection Read(ObjectMembers o)
    {
        string? name = o.Name("name", "What the bench calls the engine.", required: true);
        Adjuster? adjuster = o.Choice("valvetrain", Adjusters, "How the clearances are adjusted.", required: true);
        double ratio = o.Number(RatioMember);
        double? pitch = o.Number(
            "pitch", new(Valvetrain.LeastPitch, Valvetrain.GreatestPitch, Measure.Length), "Thread pitch of the adjusting screw, mm a turn; a screw needs it.");
        HeatGain? heat = HeatSection.Read(o);
        GapSense? sense = o.Choice("sense", Senses, "Which way wear moves the gaps: opening, they close up; closing, those of a desmodromic valve train that grow.");
        HashSet<string> ids = new(StringComparer.Ordinal);
        IReadOnlyList<ValveSection> valves = o.List(
            "valves", v => ValveSection.Read(v, ids), (1, Engine.MostValves), "The valves, in the order in which they are listed everywhere.", required: true);
        LayoutCard? layout = o.Object("layout", LayoutCard.Read, "Cylinders and cam events, for the crank stops.");
        WearCard? wear = o.Object("wear", WearCard.Read, "What wear is usual for this engine.");

        if (adjuster == Domain.Engines.Adjuster.Screw && !o.Has("pitch"))
        {
            o.Problem("pitch", "missing", "a screw needs its pitch, mm a turn");
        }
        else if (adjuster is not null and not Domain.Engines.Adjuster.Screw && o.Has("pitch"))
        {
            o.Problem("pitch", "found a pitch", "only the valvetrain \"screw\" has one");
        }

        return new(name, adjuster, ratio, pitch, heat, sense ?? GapSense.Opening, valves, o.Has("layout"), layout, o.Has("wear"), wear);
    }

    /// <summary>What a temperature adds to the gaps of a side, mm; 0 where it, the side or κ is unknown.</summary>
    public double ShiftAt(double? temperature, ValveSide? side) =>
        new ThermalShift(temperature ?? ThermalShift.Reference, side is { } s ? Heat?.Of(s) : null).Millimetres;

    /// <summary>The engine; to be asked for only where nothing was wrong.</summary>
    public Engine ToEngine() => new(
        Name!,
        new Valvetrain(Adjuster!.Value, Ratio, Pitch),
        Valves.Select(v => new Valve(v.Id!, v.Cylinder!.Value, v.Side!.Value, v.Access!, v.Band!)),
        Heat,
        Sense);

    /// <summary>The crank layout; to be asked for only where the stops found nothing wrong.</summary>
    public CrankLayout ToLayout() => new(
        Layout!.FiringOrder,
        Layout.FiringAngles,
        [.. Valves.Select(v => new TimedValve(
            v.Id!, v.Cylinder!.Value, v.Side!.Value, (v.Events ?? Layout.EventsOf(v.Side.Value))!, v.Also))],
        Layout.RampDegrees,
        Layout.Marks);
}
