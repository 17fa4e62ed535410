using Shimwright.Bench.Engines;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Pages.Wording;
using Value = Shimwright.Pages.Engines.CardValue;

namespace Shimwright.Pages.Engines;

/// <summary>Finger or rocker on the card's form: its ends, or what comes of them.</summary>
internal static class CardLever
{
    private const string AsUsual = "usual";

    /// <summary>Where a gap may be felt.</summary>
    public static IReadOnlyList<(string Name, string Title)> Gaps { get; } =
    [
        (AsUsual, "Default: finger at the cam, rocker at the valve"), ("cam", "Between cam and lever"), ("valve", "Between lever and valve"),
    ];

    /// <summary>Where a rocker's screw may be.</summary>
    public static IReadOnlyList<(string Name, string Title)> Screws { get; } = [("valve", "At the valve end"), ("push-rod", "At the push-rod or cam end")];

    /// <summary>The fields, in the order of the page.</summary>
    public static IReadOnlyList<CardField> Fields { get; } =
    [
        new(nameof(CardForm.LeverRatio), "Lever ratio", Value.Plain("leverRatio", null, e => LeverOf(e)?.LiftRatio))
        {
            Mode = "decimal",
            Hint = _ => $"Valve lift divided by cam lift, b / a in the drawing, {Times.Exact(Lever.Least)} to {Times.Exact(Lever.Greatest)}.",
        },
        new(nameof(CardForm.FeltAt), "Gap measured", Value.Choice("feltAt", new("f-felt", Gaps, Usual: AsUsual), FeltAt)),
        new(nameof(CardForm.ScrewAt), "Screw position", Value.Choice(
            "screwAt", new("f-screw", Screws, Usual: "valve"), e => LeverOf(e) is { AdjustedAt: LeverEnd.Cam } ? "push-rod" : "valve")),
        new(nameof(CardForm.Ratio), "Ratio at the gap", Value.Plain("ratio", EngineCard.UsualRatio, e => LeverOf(e) is null ? e.Card.Engine.Valvetrain.Ratio : null))
        {
            Mode = "decimal",
            Hint = _ => $"Gap change per unit of shim or screw travel. Only without a lever ratio. Default {Times.Exact(EngineCard.UsualRatio)}.",
        },
    ];

    private static Lever? LeverOf(StoredEngine engine) => engine.Card.Engine.Valvetrain.Lever;

    private static string FeltAt(StoredEngine engine)
    {
        LeverEnd usual = engine.Card.Engine.Valvetrain.Adjuster == Adjuster.FingerFollower ? LeverEnd.Cam : LeverEnd.Valve;
        return LeverOf(engine) is not { } lever || lever.FeltAt == usual ? AsUsual : lever.FeltAt == LeverEnd.Cam ? "cam" : "valve";
    }
}
