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
        new(nameof(LimitsFrom), "Where the limits come from", Value.DetailText("limitsFrom", d => d.LimitsFrom, (d, text) => d with { LimitsFrom = text }))
        {
            Hint = _ => "Manual, edition, page.",
            Fact = new("Limits from", (e, _) => e.Details.LimitsFrom.Length > 0 ? e.Details.LimitsFrom : "not said: compare them with the maker's manual"),
        },
    ];

    public string? Valvetrain { get; set; }

    private static readonly IReadOnlyList<CardField> KindFields =
    [
        new(nameof(Valvetrain), "How the clearances are adjusted", Value.Choice(
            "valvetrain", new("f-train", [.. ValveTrainWords.All.Select(t => (t.Name, t.Title))]), e => ValveTrainWords.Of(e.Card.Engine.Valvetrain.Adjuster).Name)),
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
            Hint = lengths => $"{lengths.UnitName} a turn; screws only.",
        },
        .. CardHeat.Fields,
        new(nameof(Sense), "What wear does to the gaps", Value.Choice(
            "sense",
            new("f-sense", [("opening", "They close up (usual)"), ("closing", "They grow: closing levers of a desmodromic head")], Usual: "opening"),
            e => e.Card.Engine.Sense == GapSense.Closing ? "closing" : "opening")),
        new(nameof(ShimDiameter), "Shim diameter", Value.DetailLength("shimDiameter", d => d.ShimDiameter, (d, mm) => d with { ShimDiameter = mm }))
        {
            Mode = "decimal",
            Fact = new("Shim diameter", (e, lengths) => e.Details.ShimDiameter is { } mm ? $"{lengths.Shim(mm)} {lengths.UnitName}" : null),
        },
        new(nameof(Thinnest), "Thinnest shim there is", Value.DetailLength("thinnestShim", d => d.ThinnestShim, (d, mm) => d with { ThinnestShim = mm })) { Mode = "decimal" },
        new(nameof(Thickest), "Thickest shim there is", Value.DetailLength("thickestShim", d => d.ThickestShim, (d, mm) => d with { ThickestShim = mm }))
        {
            Mode = "decimal",
            Fact = new("Shims there are", (e, lengths) => ShimRange(e.Details, lengths)),
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
            Hint = _ => "When each cylinder of the order fires; blank for even firing.",
        },
        new(nameof(IntakeOpens), "Intake opens before top dead centre", Value.Degrees("layout.intake.opensBtdc", e => e.Card.Layout?.Intake?.Opens)) { AlsoAt = ["layout.intake"] },
        new(nameof(IntakeCloses), "Intake closes after bottom dead centre", Value.Degrees("layout.intake.closesAbdc", e => e.Card.Layout?.Intake?.Closes)),
        new(nameof(ExhaustOpens), "Exhaust opens before bottom dead centre", Value.Degrees("layout.exhaust.opensBbdc", e => e.Card.Layout?.Exhaust?.Opens)) { AlsoAt = ["layout.exhaust"] },
        new(nameof(ExhaustCloses), "Exhaust closes after top dead centre", Value.Degrees("layout.exhaust.closesAtdc", e => e.Card.Layout?.Exhaust?.Closes)),
        new(nameof(EventsAt), "Lift at which they are given", Value.Length("layout.eventsAtMm", e => e.Card.Layout?.EventsAt is { } lift && lift != LayoutCard.UsualEventsAt ? lift : null))
        {
            Mode = "decimal",
            Hint = lengths => $"{lengths.UnitName} of valve lift; 0 if they are the true ones. Blank counts as {lengths.Field(LayoutCard.UsualEventsAt)}.",
        },
        new(nameof(Decompressed), "Valves of an automatic decompressor", Value.Names("decompressor.valves", e => e.Card.Decompressor?.Valves)) { AlsoAt = ["decompressor"], Hint = _ => "Such as E1. Blank: there is none." },
        new(nameof(Lifts), "When the decompressor lifts", Value.Choice(
            "decompressor.liftsWhenTurned",
            new("f-lifts", [("none", "There is none"), ("forwards", "As the crank turns forwards by hand"), ("backwards", "As the crank turns backwards"), ("both", "Whichever way it turns")], Usual: "none"),
            e => LiftOf(e.Card.Decompressor))),
        new(nameof(StopsAt), "Where the crank may stop", Value.Choice(
            "layout.stopsAt",
            new("f-stops", [("marks", "At dead centres and marks"), ("anywhere", "Anywhere, with a degree wheel")], Usual: "marks"),
            e => e.Card.Layout is { StopsAnywhere: true } ? "anywhere" : "marks")),
        new(nameof(Marks), "Further marks", Value.Angles("layout.marks", e => e.Card.Layout?.Marks)) { Hint = _ => "A mark on the crank's wheel passes twice in a cycle: 10 370." },
        new(nameof(Ramp), "Ramp", Value.Degrees("layout.rampDeg", e => e.Card.Layout?.RampDegrees, LayoutCard.UsualRamp))
        {
            Hint = _ => $"By how much each opening is widened at both ends; blank counts as {Times.Exact(LayoutCard.UsualRamp)}.",
        },
        new(nameof(Turning), "How the crank turns", Value.Text("layout.turning", e => e.Card.Layout?.Turning)) { Hint = _ => "Such as clockwise, seen from the left." },
    ];

    public string? Clock { get; set; }

    public string? Interval { get; set; }

    public string? Loss { get; set; }

    public string? Spread { get; set; }

    private static readonly IReadOnlyList<CardField> WearFields =
    [
        new(nameof(Clock), "What the clock counts", Value.Choice(
            "wear.clock", new("f-clock", [("hours", "Hours"), ("km", "Kilometres")], Usual: "hours"), e => e.Card.Wear is { CountsKilometres: true } ? "km" : "hours")),
        new(nameof(Interval), "Interval between checks", Value.Clock("wear.interval", e => e.Card.Wear?.Interval))
        {
            Mode = "decimal",
            Hint = _ => "The maker's, on the engine's clock; the rest counts from it.",
        },
        new(nameof(Loss), "Clearance lost in an interval", Value.Length("wear.lossPerInterval", e => e.Card.Wear?.LossPerInterval))
        {
            Hint = lengths => $"On average, {lengths.UnitName}; blank counts as {lengths.Field(WearCard.UsualLoss)}.",
        },
        new(nameof(Spread), "Spread of that loss", Value.Length("wear.spread", e => e.Card.Wear?.Spread))
        {
            Hint = lengths => $"Between valves, {lengths.UnitName}; blank counts as {lengths.Field(WearCard.UsualSpread)}.",
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
        details.ThinnestShim is null && details.ThickestShim is null
            ? null
            : $"{(details.ThinnestShim is { } thin ? $"from {lengths.Shim(thin)} " : "")}{(details.ThickestShim is { } thick ? $"to {lengths.Shim(thick)} " : "")}{lengths.UnitName}";
}
