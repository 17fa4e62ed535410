using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Engines;

/// <summary>A card in few words.</summary>
internal static class CardWords
{
    /// <summary>The limits, each said once: of a whole side, or of the valves that share them.</summary>
    public static IReadOnlyList<(string Whose, string Band)> Limits(IReadOnlyList<Valve> valves, LengthStyle lengths) =>
    [
        .. valves.GroupBy(v => v.Side).OrderBy(side => side.Key).SelectMany(side =>
        {
            IGrouping<ClearanceBand, Valve>[] bands = [.. side.GroupBy(v => v.Band)];
            return bands.Select(b => (
                bands.Length == 1 ? $"All {(side.Key == ValveSide.Intake ? "intake" : "exhaust")}" : string.Join(", ", b.Select(v => v.Id)),
                lengths.Band(b.Key)));
        }),
    ];

    /// <summary>Each part of the card's page, as the form has it, for the line that folds it.</summary>
    public static string Of(CardPart part, CardForm form) => part switch
    {
        CardPart.Train => Said(ValveTrainWords.Named(form.Valvetrain)?.Title, Titled("shim", form.ShimDiameter), Titled("lever ratio", form.LeverRatio)),
        CardPart.Crank => Said(form.Order, string.IsNullOrWhiteSpace(form.IntakeOpens) ? null : "cam events set", string.IsNullOrWhiteSpace(form.Decompressed) ? null : "decompressor"),
        CardPart.Wear => Said(string.IsNullOrWhiteSpace(form.Interval) ? null : $"every {form.Interval.Trim()} {(form.Clock == "km" ? "km" : "h")}"),
        CardPart.Foot => string.IsNullOrWhiteSpace(form.CardNotes + form.Notes) ? "none" : "written",
        _ => Said(form.LimitsFrom),
    };

    /// <summary>The valves of the form: how many, and their limits where a side has one pair.</summary>
    public static string Valves(CardForm form)
    {
        ValveFields[] named = [.. form.Valves.Where(v => v.IsNamed)];
        return string.Join(", ",
        [
            named.Length.ToString(CultureInfo.InvariantCulture),
            .. named.GroupBy(v => v.Side).Select(side => side.Select(v => (v.Low, v.High)).Distinct().ToArray() is [var one]
                ? $"{side.Key} {one.Low}-{one.High}" : $"{side.Key} with different limits"),
        ]);
    }

    private static string? Titled(string title, string? text) => string.IsNullOrWhiteSpace(text) ? null : $"{title} {text.Trim()}";

    private static string Said(params IEnumerable<string?> parts) =>
        string.Join(", ", parts.Where(p => !string.IsNullOrWhiteSpace(p)).Select(p => p!.Trim())) is { Length: > 0 } words ? words : "not set";
}
