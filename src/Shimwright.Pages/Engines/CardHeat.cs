using System.Text.Json.Nodes;
using Shimwright.Bench.Engines;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Engines;

/// <summary>
/// What heat adds to the gaps, on the card's form: one field for both sides, one for the exhaust side where it differs, and a
/// way to work both out of the height of the head and of what head and valves are made of.
/// </summary>
internal static class CardHeat
{
    private const string Kappa = "temperature.kappaMmPerC";
    private const string NotSaid = "none";

    private static readonly Dictionary<string, (string Title, double PerDegree)> Heads = new(StringComparer.Ordinal)
    {
        ["aluminium"] = ("Aluminium alloy", Expansion.CastAluminium),
        ["iron"] = ("Cast iron", Expansion.GrayIron),
    };

    private static readonly Dictionary<string, (string Title, double PerDegree)> Valves = new(StringComparer.Ordinal)
    {
        ["austenitic"] = ("Austenitic steel (not magnetic)", Expansion.AusteniticValveSteel),
        ["martensitic"] = ("Martensitic steel (magnetic)", Expansion.MartensiticValveSteel),
        ["titanium"] = ("Titanium", Expansion.Titanium),
    };

    /// <summary>The fields, in the order of the page; a field that needs another is read after it.</summary>
    public static IReadOnlyList<CardField> Fields { get; } =
    [
        new(nameof(CardForm.Kappa), "Gap change per °C", CardValue.Length(Kappa, e => e.Card.Engine.Heat?.Intake))
        {
            AlsoAt = [$"{Kappa}.intake"],
            Hint = lengths => $"{lengths.UnitName} per °C above {Times.Exact(ThermalShift.Reference)} °C. Minus if the gaps close. Optional.",
        },
        new(nameof(CardForm.KappaExhaust), "Gap change per °C, exhaust", new($"{Kappa}.exhaust", ReadExhaust, WriteExhaust)) { Hint = _ => "Only if it differs." },
        new(nameof(CardForm.HeatHead), "Material of the head", CardValue.Worked((_, _, _) => { }, Choices("f-heat-head", Heads))),
        new(nameof(CardForm.HeatValve), "Material of the valves", CardValue.Worked((_, _, _) => { }, Choices("f-heat-valve", Valves))),
        new(nameof(CardForm.HeatHeight), "Height, valve seat to cam", CardValue.Worked(ReadHeight))
        {
            Mode = "decimal",
            Hint = lengths => $"{lengths.UnitName}. With both materials it replaces the figures above when you save.",
        },
    ];

    private static CardChoices Choices(string id, Dictionary<string, (string Title, double PerDegree)> materials) =>
        new(id, [(NotSaid, "Not used"), .. materials.Select(m => (m.Key, m.Value.Title))], NotSaid);

    private static void ReadExhaust(CardDraft draft, string field, string? text)
    {
        if (draft.Lengths.Read(text, field, needed: false).Note(draft.Problems) is not { } exhaust)
        {
            return;
        }

        if (draft.Card["temperature"]?["kappaMmPerC"] is JsonValue intake)
        {
            draft.Put(Kappa, new JsonObject { ["intake"] = intake.GetValue<double>(), ["exhaust"] = exhaust });
        }
        else if (string.IsNullOrWhiteSpace(draft.Form.Kappa))
        {
            draft.Problems.Add(new JobProblem(nameof(CardForm.Kappa), "nothing was entered", "enter the intake figure too, or clear the exhaust figure"));
        }
    }

    private static string WriteExhaust(StoredEngine engine, LengthStyle lengths) =>
        engine.Card.Engine.Heat is { IsEven: false } heat ? lengths.Field(heat.Exhaust) : "";

    private static void ReadHeight(CardDraft draft, string field, string? text)
    {
        bool isHead = Heads.TryGetValue(draft.Form.HeatHead ?? "", out (string, double PerDegree) head);
        bool isValve = Valves.TryGetValue(draft.Form.HeatValve ?? "", out (string, double PerDegree) valve);
        if (string.IsNullOrWhiteSpace(text) && !isHead && !isValve)
        {
            return;
        }

        double? height = draft.Lengths.Read(text, field).Note(draft.Problems);
        if (!isHead || !isValve)
        {
            draft.Problems.Add(new JobProblem(isHead ? nameof(CardForm.HeatValve) : nameof(CardForm.HeatHead), "nothing was chosen", "choose the material, or clear all three"));
        }
        else if (height is < 1 or > 500)
        {
            draft.Problems.Add(new JobProblem(field, $"found {draft.Lengths.Field(height.Value)}", $"allowed is {draft.Lengths.Field(1)} to {draft.Lengths.Field(500)} {draft.Lengths.UnitName}"));
        }
        else if (height is { } h)
        {
            draft.Put(Kappa, Math.Round(HeatGain.Between(h, head.PerDegree, valve.PerDegree), 7));
        }
    }
}
