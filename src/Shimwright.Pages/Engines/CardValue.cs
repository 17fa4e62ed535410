using System.Text.Json.Nodes;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Engines;

/// <summary>A kind of value on the card: how a field's text becomes it, and how what is kept becomes the field's text.</summary>
/// <param name="Path">Where its problems come from: its path in the card, or its member among the details; null where they all come from reading it.</param>
/// <param name="Read">Puts what was typed in a field of this name into the draft, or notes what is wrong with it.</param>
/// <param name="Write">What is kept, as it stands in the field.</param>
internal sealed record CardValue(string? Path, Action<CardDraft, string, string?> Read, Func<StoredEngine, LengthStyle, string> Write)
{
    private static readonly char[] BetweenAngles = [' ', ';', '/', '\t'];

    private static readonly char[] BetweenNames = [' ', ',', ';', '\t'];

    /// <summary>What may be chosen; null where it is typed.</summary>
    public CardChoices? Choices { get; private init; }

    /// <summary>A length of the card.</summary>
    public static CardValue Length(string path, Func<StoredEngine, double?> kept) =>
        Number(path, (draft, field, text) => draft.Lengths.Read(text, field, needed: false), (engine, lengths) => InField(kept(engine), lengths));

    /// <summary>A bare number of the card; the field is blank where it is the usual one.</summary>
    public static CardValue Plain(string path, double? usual, Func<StoredEngine, double?> kept) =>
        Number(path, (_, field, text) => TypedNumber.Plain(text, field, needed: false), (engine, _) => Unusual(kept(engine), usual));

    /// <summary>Degrees of the crank; the field is blank where they are the usual ones.</summary>
    public static CardValue Degrees(string path, Func<StoredEngine, double?> kept, double? usual = null) =>
        Number(path, (_, field, text) => TypedNumber.Degrees(text, field, needed: false), (engine, _) => Unusual(kept(engine), usual));

    /// <summary>A count of the engine's clock, in the unit that the form says.</summary>
    public static CardValue Clock(string path, Func<StoredEngine, double?> kept) =>
        Number(path, (draft, field, text) => TypedNumber.Clock(text, field, draft.Form.Clock == "km" ? "km" : "h", needed: false), (engine, _) => Unusual(kept(engine), null));

    /// <summary>Degrees of the crank, with blanks between them.</summary>
    public static CardValue Angles(string path, Func<StoredEngine, IReadOnlyList<double>?> kept) => new(
        path,
        (draft, field, text) => draft.Put(path, List((text ?? "").Split(BetweenAngles, StringSplitOptions.RemoveEmptyEntries)
            .Select(a => TypedNumber.Degrees(a, field).Note(draft.Problems)).OfType<double>())),
        (engine, _) => string.Join(' ', (kept(engine) ?? []).Select(Times.Exact)));

    /// <summary>Names, with blanks or commas between them.</summary>
    public static CardValue Names(string path, Func<StoredEngine, IReadOnlyList<string>?> kept) => new(
        path,
        (draft, _, text) => draft.Put(path, List((text ?? "").Split(BetweenNames, StringSplitOptions.RemoveEmptyEntries))),
        (engine, _) => string.Join(' ', kept(engine) ?? []));

    /// <summary>Cylinders in the order in which they fire.</summary>
    public static CardValue FiringOrder(string path, Func<StoredEngine, IReadOnlyList<int>?> kept) => new(
        path,
        (draft, field, text) =>
        {
            IReadOnlyList<int>? order = string.IsNullOrWhiteSpace(text) ? [] : FiringOrders.Read(text);
            if (order is null)
            {
                draft.Problems.Add(new(field, $"found \"{text}\"", "enter the cylinders in the order in which they fire, such as 1-3-4-2"));
            }

            draft.Put(path, List(order ?? []));
        },
        (engine, _) => FiringOrders.Text(kept(engine) ?? []));

    /// <summary>A text of the card; one that is needed stands there though it is blank, for the card to say so.</summary>
    public static CardValue Text(string path, Func<StoredEngine, string?> kept, bool needed = false) => new(
        path,
        (draft, _, text) => draft.Put(path, string.IsNullOrWhiteSpace(text) && !needed ? null : JsonValue.Create(text?.Trim() ?? "")),
        (engine, _) => kept(engine) ?? "");

    /// <summary>A choice; the usual one is left out of the card.</summary>
    public static CardValue Choice(string path, CardChoices choices, Func<StoredEngine, string> kept) => new(
        path,
        (draft, _, text) => draft.Put(path, string.IsNullOrEmpty(text) || text == choices.Usual ? null : JsonValue.Create(text)),
        (engine, _) => kept(engine))
    {
        Choices = choices,
    };

    /// <summary>A length among the details.</summary>
    public static CardValue DetailLength(string member, Func<CardDetails, double?> kept, Func<CardDetails, double?, CardDetails> with) => new(
        member,
        (draft, field, text) => draft.Details = with(draft.Details, draft.Lengths.Read(text, field, needed: false).Note(draft.Problems)),
        (engine, lengths) => InField(kept(engine.Details), lengths));

    /// <summary>A text among the details.</summary>
    public static CardValue DetailText(string member, Func<CardDetails, string> kept, Func<CardDetails, string, CardDetails> with) => new(
        member,
        (draft, _, text) => draft.Details = with(draft.Details, text?.Trim() ?? ""),
        (engine, _) => kept(engine.Details));

    /// <summary>A text that is kept with the engine and not with its card.</summary>
    public static CardValue EngineText(Func<StoredEngine, string> kept, int longest = DetailRules.LongestText) => new(
        null,
        (draft, field, text) =>
        {
            if (text?.Trim().Length > longest)
            {
                draft.Problems.Add(new(field, $"found {text.Trim().Length} characters", $"allowed are {longest}"));
            }
            else if (longest < DetailRules.LongestText && text?.Trim().Any(char.IsControl) == true)
            {
                draft.Problems.Add(new(field, "found more than one line", "write one line"));
            }
        },
        (engine, _) => kept(engine));

    /// <summary>What is not kept, but worked into another value when the form is read.</summary>
    public static CardValue Worked(Action<CardDraft, string, string?> read, CardChoices? choices = null) => new(null, read, (_, _) => choices?.Usual ?? "")
    {
        Choices = choices,
    };

    private static CardValue Number(string path, Func<CardDraft, string, string?, TypedNumber> read, Func<StoredEngine, LengthStyle, string> write) => new(
        path,
        (draft, field, text) => draft.Put(path, read(draft, field, text).Note(draft.Problems) is { } value ? JsonValue.Create(value) : null),
        write);

    private static JsonArray? List<T>(IEnumerable<T> values) => values.Select(v => (JsonNode?)JsonValue.Create(v)).ToArray() is { Length: > 0 } nodes ? new(nodes) : null;

    private static string InField(double? length, LengthStyle lengths) => length is { } mm ? lengths.Field(mm) : "";

    private static string Unusual(double? value, double? usual) => value is { } v && v != usual ? Times.Exact(v) : "";
}
