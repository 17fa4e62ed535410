using Shimwright.Bench.Engines;
using Value = Shimwright.Pages.Engines.CardValue;

namespace Shimwright.Pages.Engines;

/// <summary>The fields at the foot of the card: notes, and what the record says of this one engine.</summary>
internal static class CardFoot
{
    public static IReadOnlyList<CardField> Fields { get; } =
    [
        new(nameof(CardForm.CardNotes), "Notes on the card", Value.DetailText("notes", d => d.Notes, (d, text) => d with { Notes = text }))
        {
            Lines = 3,
            Hint = _ => "For every engine of this card.",
            Fact = new("Card notes", (e, _) => Said(e.Details.Notes)),
        },
        new(nameof(CardForm.Owner), "Owner", Value.EngineText(e => e.Papers.Owner, EnginePapers.Longest))
        {
            Hint = _ => "A name or a customer number, for the record. This engine alone.",
            Fact = new("Owner", (e, _) => Said(e.Papers.Owner)),
        },
        new(nameof(CardForm.Frame), "Frame or plate number", Value.EngineText(e => e.Papers.Frame, EnginePapers.Longest))
        {
            Hint = _ => "This engine alone.",
            Fact = new("Frame or plate number", (e, _) => Said(e.Papers.Frame)),
        },
        new(nameof(CardForm.Notes), "Notes on this engine", Value.EngineText(e => e.Notes)) { Lines = 3, Fact = new("Notes", (e, _) => Said(e.Notes)) },
    ];

    private static string? Said(string text) => text.Length > 0 ? text : null;
}
