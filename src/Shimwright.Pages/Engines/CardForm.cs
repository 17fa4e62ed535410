using System.Reflection;
using Shimwright.Bench.Engines;
using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Sections;
using Shimwright.Pages.Wording;
using Value = Shimwright.Pages.Engines.CardValue;

namespace Shimwright.Pages.Engines;

/// <summary>
/// The card's form: the text of every field, right or wrong, and beside it all that is known of the field. A new field is a
/// property and an entry; the order of the entries is that of the page, of the problems and of the differences.
/// </summary>
public sealed class CardForm
{
    public int Version { get; set; }

    public int CardVersion { get; set; }

    public string? Name { get; set; }

    public string? LimitsFrom { get; set; }

    private static readonly IReadOnlyList<CardField> HeadFields =
    [
        new(nameof(Name), "Name", Value.Text("name", e => e.Name, needed: true)),
        new(nameof(LimitsFrom), "Source of the limits", Value.DetailText("limitsFrom", d => d.LimitsFrom, (d, text) => d with { LimitsFrom = text }))
        {
            Hint = _ => "Manual, edition, page.",
            Fact = new("Limits from", (e, _) => e.Details.LimitsFrom.Length > 0 ? e.Details.LimitsFrom : "not entered"),
        },
    ];

    public string? Valvetrain { get; set; }

    public string? Front { get; set; }

    private static readonly IReadOnlyList<CardField> KindFields =
    [
        new(nameof(Valvetrain), "Valve train", Value.Choice(
            "valvetrain", new("f-train", [.. ValveTrainWords.All.Select(t => (t.Name, t.Title))]), e => ValveTrainWords.Of(e.Card.Engine.Valvetrain.Adjuster).Name)),
        new(nameof(Front), "Front of the head (chain, belt or gears)", Value.Choice("front", ValveTrainWords.Fronts, e => ValveTrainWords.NameOf(e.Card.Front))),
    ];

    public string? LeverRatio { get; set; }

    public string? FeltAt { get; set; }

    public string? ScrewAt { get; set; }

    public string? Ratio { get; set; }

    public string? Pitch { get; set; }

    public string? Kappa { get; set; }

    public string? KappaExhaust { get; set; }

    public string? HeatHead { get; set; }

    public string? HeatValve { get; set; }

    public string? HeatHeight { get; set; }

    public string? Sense { get; set; }

    public string? ShimDiameter { get; set; }

    public string? Thinnest { get; set; }

    public string? Thickest { get; set; }

    private static readonly IReadOnlyList<CardField> TrainFields =
    [
        .. CardLever.Fields,
        new(nameof(Pitch), "Pitch of the screw", Value.Length("pitch", e => e.Card.Engine.Valvetrain.Pitch))
        {
            Mode = "decimal",
            Hint = lengths => $"{lengths.UnitName} per turn. Screws only.",
        },
        .. CardHeat.Fields,
        new(nameof(Sense), "Gaps with wear", Value.Choice(
            "sense",
            new("f-sense", [("opening", "Close (usual)"), ("closing", "Open (closing levers of a desmodromic head)")], Usual: "opening"),
            e => e.Card.Engine.Sense == GapSense.Closing ? "closing" : "opening")),
        new(nameof(ShimDiameter), "Shim diameter", Value.DetailLength("shimDiameter", d => d.ShimDiameter, (d, mm) => d with { ShimDiameter = mm }))
        {
            Mode = "decimal",
            Fact = new("Shim diameter", (e, lengths) => e.Details.ShimDiameter is { } mm ? $"{lengths.Shim(mm)} {lengths.UnitName}" : null),
        },
        new(nameof(Thinnest), "Thinnest shim available", Value.DetailLength("thinnestShim", d => d.ThinnestShim, (d, mm) => d with { ThinnestShim = mm })) { Mode = "decimal" },
        new(nameof(Thickest), "Thickest shim available", Value.DetailLength("thickestShim", d => d.ThickestShim, (d, mm) => d with { ThickestShim = mm }))
        {
            Mode = "decimal",
            Fact = new("Shims available", (e, lengths) => ShimRange(e.Details, lengths)),
        },
    ];

    /// <summary>The minutes of each access group.</summary>
    public List<AccessFields> Access { get; set; } = [];

    public List<ValveFields> Valves { get; set; } = [];

    /// <summary>Limits for all intake or all exhaust valves; blank where each keeps its own.</summary>
    public string? IntakeLow { get; set; }

    public string? IntakeHigh { get; set; }

    public string? ExhaustLow { get; set; }

    public string? ExhaustHigh { get; set; }

    public string? Order { get; set; }

    public string? Angles { get; set; }

    public string? IntakeOpens { get; set; }

    public string? IntakeCloses { get; set; }

    public string? ExhaustOpens { get; set; }

    public string? ExhaustCloses { get; set; }

    public string? EventsAt { get; set; }

    public string? Decompressed { get; set; }

    public string? Lifts { get; set; }

    public string? StopsAt { get; set; }

    public string? Marks { get; set; }

    public string? Ramp { get; set; }

    public string? Turning { get; set; }

    private static readonly IReadOnlyList<CardField> CrankFields =
    [
        new(nameof(Order), "Firing order", Value.FiringOrder("layout.firingOrder", e => e.Card.Layout?.FiringOrder)) { AlsoAt = ["layout"], Hint = _ => "Such as 1-3-4-2." },
        new(nameof(Angles), "Firing angles", Value.Angles("layout.firingAngles", e => e.Card.Layout?.FiringAngles))
        {
            Hint = _ => "Crank angle of each firing. Blank for even firing.",
        },
        new(nameof(IntakeOpens), "Intake opens before top dead centre", Value.Degrees("layout.intake.opensBtdc", e => e.Card.Layout?.Intake?.Opens)) { AlsoAt = ["layout.intake"] },
        new(nameof(IntakeCloses), "Intake closes after bottom dead centre", Value.Degrees("layout.intake.closesAbdc", e => e.Card.Layout?.Intake?.Closes)),
        new(nameof(ExhaustOpens), "Exhaust opens before bottom dead centre", Value.Degrees("layout.exhaust.opensBbdc", e => e.Card.Layout?.Exhaust?.Opens)) { AlsoAt = ["layout.exhaust"] },
        new(nameof(ExhaustCloses), "Exhaust closes after top dead centre", Value.Degrees("layout.exhaust.closesAtdc", e => e.Card.Layout?.Exhaust?.Closes)),
        new(nameof(EventsAt), "Valve lift at these events", Value.Length("layout.eventsAtMm", e => e.Card.Layout?.EventsAt is { } lift && lift != LayoutCard.UsualEventsAt ? lift : null))
        {
            Mode = "decimal",
            Hint = lengths => $"{lengths.UnitName}. Default {lengths.Field(LayoutCard.UsualEventsAt)}.",
        },
        new(nameof(Decompressed), "Decompressor valves", Value.Names("decompressor.valves", e => e.Card.Decompressor?.Valves)) { AlsoAt = ["decompressor"], Hint = _ => "Such as E1. Blank for none." },
        new(nameof(Lifts), "Decompressor lifts", Value.Choice(
            "decompressor.liftsWhenTurned",
            new("f-lifts", [("none", "No decompressor"), ("forwards", "Crank turned forwards by hand"), ("backwards", "Crank turned backwards"), ("both", "Crank turned either way")], Usual: "none"),
            e => LiftOf(e.Card.Decompressor))),
        new(nameof(StopsAt), "Crank stops", Value.Choice(
            "layout.stopsAt",
            new("f-stops", [("marks", "At dead centres and marks"), ("anywhere", "Anywhere, with a degree wheel")], Usual: "marks"),
            e => e.Card.Layout is { StopsAnywhere: true } ? "anywhere" : "marks")),
        new(nameof(Marks), "Further marks", Value.Angles("layout.marks", e => e.Card.Layout?.Marks)) { Hint = _ => "Crank degrees, such as 10 370. A mark passes twice in a cycle." },
        new(nameof(Ramp), "Ramp", Value.Degrees("layout.rampDeg", e => e.Card.Layout?.RampDegrees, LayoutCard.UsualRamp))
        {
            Hint = _ => $"Degrees added at both ends of each opening. Default {Times.Exact(LayoutCard.UsualRamp)}.",
        },
        new(nameof(Turning), "Running direction", Value.Text("layout.turning", e => e.Card.Layout?.Turning)) { Hint = _ => "Such as clockwise, seen from the left." },
    ];

    public string? Clock { get; set; }

    public string? Interval { get; set; }

    public string? Loss { get; set; }

    public string? Spread { get; set; }

    private static readonly IReadOnlyList<CardField> WearFields =
    [
        new(nameof(Clock), "Hour meter or odometer", Value.Choice(
            "wear.clock", new("f-clock", [("hours", "Hours"), ("km", "Kilometres")], Usual: "hours"), e => e.Card.Wear is { CountsKilometres: true } ? "km" : "hours")),
        new(nameof(Interval), "Maker's interval", Value.Clock("wear.interval", e => e.Card.Wear?.Interval))
        {
            Mode = "decimal",
            Hint = _ => "Between two checks.",
        },
        new(nameof(Loss), "Loss per interval", Value.Length("wear.lossPerInterval", e => e.Card.Wear?.LossPerInterval))
        {
            Hint = lengths => $"Average, {lengths.UnitName}. Default {lengths.Field(WearCard.UsualLoss)}.",
        },
        new(nameof(Spread), "Scatter of the loss", Value.Length("wear.spread", e => e.Card.Wear?.Spread))
        {
            Hint = lengths => $"Between valves, {lengths.UnitName}. Default {lengths.Field(WearCard.UsualSpread)}.",
        },
    ];

    public string? CardNotes { get; set; }

    public string? Notes { get; set; }

    public string? Owner { get; set; }

    public string? Frame { get; set; }

    /// <summary>Owner and frame number as they stand in the fields.</summary>
    internal EnginePapers Papers => new(Owner?.Trim() ?? "", Frame?.Trim() ?? "");

    /// <summary>Every field that stands alone.</summary>
    internal static IReadOnlyList<CardField> All { get; } = [.. HeadFields, .. KindFields, .. TrainFields, .. CrankFields, .. WearFields, .. CardFoot.Fields];

    /// <summary>The text of a field.</summary>
    internal string? this[CardField field]
    {
        get => (string?)PropertyOf(field).GetValue(this);
        set => PropertyOf(field).SetValue(this, value);
    }

    /// <summary>The fields of a part of the page.</summary>
    internal static IReadOnlyList<CardField> In(CardPart part) => part switch
    {
        CardPart.Head => HeadFields,
        CardPart.Kind => KindFields,
        CardPart.Train => TrainFields,
        CardPart.Crank => CrankFields,
        CardPart.Wear => WearFields,
        _ => CardFoot.Fields,
    };

    private static string LiftOf(DecompressorCard? decompressor) => decompressor?.Lifts switch
    {
        DecompressorLift.Forwards => "forwards",
        DecompressorLift.Backwards => "backwards",
        DecompressorLift.Both => "both",
        _ => "none",
    };

    private static PropertyInfo PropertyOf(CardField field) => typeof(CardForm).GetProperty(field.Name)!;

    private static string? ShimRange(CardDetails details, LengthStyle lengths) =>
        details.ThinnestShim is null && details.ThickestShim is null ? null
            : $"{(details.ThinnestShim is { } thin ? $"from {lengths.Shim(thin)} " : "")}{(details.ThickestShim is { } thick ? $"to {lengths.Shim(thick)} " : "")}{lengths.UnitName}";
}
