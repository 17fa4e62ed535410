using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The engine as far as it could be read: what the other sections refer to, right or wrong.</summary>
internal sealed record EngineSection(
    string? Name, TrainSection Train, HeatGain? Heat, GapSense Sense,
    IReadOnlyList<ValveSection> Valves, bool HasLayout, LayoutCard? Layout, bool HasWear, WearCard? Wear, DecompressorCard? Decompressor, HeadEnd? Front)
{
    private static readonly Dictionary<string, GapSense> Senses = new(StringComparer.Ordinal)
    {
        ["opening"] = GapSense.Opening,
        ["closing"] = GapSense.Closing,
    };

    private static readonly Dictionary<string, HeadEnd> Ends = new(StringComparer.Ordinal)
    {
        ["first"] = HeadEnd.First,
        ["last"] = HeadEnd.Last,
    };

    /// <summary>An engine of which nothing could be read.</summary>
    public static EngineSection None { get; } = new(null, TrainSection.None, null, GapSense.Opening, [], false, null, false, null, null, null);

    /// <summary>How the clearances are adjusted, where it could be read.</summary>
    public Adjuster? Adjuster => Train.Adjuster;

    public IEnumerable<string> Ids => Valves.Select(v => v.Id).OfType<string>();

    public static EngineSection Read(ObjectMembers o)
    {
        string? name = o.Name("name", "What the bench calls the engine.", required: true);
        TrainSection train = TrainSection.Read(o);
        HeatGain? heat = HeatSection.Read(o);
        GapSense? sense = o.Choice("sense", Senses, "Which way wear moves the gaps: opening, they close up; closing, those of a desmodromic valve train that grow.");
        HashSet<string> ids = new(StringComparer.Ordinal);
        IReadOnlyList<ValveSection> valves = o.List(
            "valves", v => ValveSection.Read(v, ids), (1, Engine.MostValves), "The valves, in the order in which they are listed everywhere.", required: true);
        LayoutCard? layout = o.Object("layout", LayoutCard.Read, "Cylinders and cam events, for the crank stops.");
        WearCard? wear = o.Object("wear", WearCard.Read, "What wear is usual for this engine.");
        DecompressorCard? decompressor = DecompressorCard.Read(o, valves);
        HeadEnd? front = o.Choice("front", Ends, "The end of the head that has the chain, belt or gears: that of the first cylinder, or that of the last.");
        return new(name, train, heat, sense ?? GapSense.Opening, valves, o.Has("layout"), layout, o.Has("wear"), wear, decompressor, front);
    }

    /// <summary>What a temperature adds to the gaps of a side, mm; 0 where it, the side or κ is unknown.</summary>
    public double ShiftAt(double? temperature, ValveSide? side) =>
        new ThermalShift(temperature ?? ThermalShift.Reference, side is { } s ? Heat?.Of(s) : null).Millimetres;

    /// <summary>The engine; to be asked for only where nothing was wrong.</summary>
    public Engine ToEngine() => new(
        Name!,
        Train.ToValvetrain(),
        Valves.Select(v => new Valve(v.Id!, v.Cylinder!.Value, v.Side!.Value, v.Access!, v.Band!)),
        Heat,
        Sense);

    /// <summary>The crank layout; to be asked for only where the stops found nothing wrong.</summary>
    public CrankLayout ToLayout() => new(
        Layout!.FiringOrder,
        Layout.FiringAngles,
        [.. Valves.Select(v => new TimedValve(
            v.Id!, v.Cylinder!.Value, v.Side!.Value, (v.Events ?? Layout.EventsOf(v.Side.Value))!, v.Also, DecompressorAt(v)))],
        Layout.RampDegrees,
        Layout.Marks,
        Layout.EventsAt);

    /// <summary>Where a valve is off its heel besides its lobe.</summary>
    public IReadOnlyList<OffHeel> OffOtherwise(ValveSection valve) => DecompressorAt(valve)?.LiftsAt(valve.Also) ?? valve.Also;

    private Decompressor? DecompressorAt(ValveSection valve) =>
        Decompressor is { } card && valve.Id is { } id && card.WorksOn(id) ? new Decompressor(card.Lifts) : null;
}
