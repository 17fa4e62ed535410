using System.Text.Json.Nodes;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>What heat adds to the gaps, on the card's form: one field for both sides, and one for the exhaust side where it differs.</summary>
internal static class CardHeat
{
    private const string Kappa = "temperature.kappaMmPerC";

    /// <summary>κ of both sides, or of the intake side alone.</summary>
    public static CardValue Both { get; } = CardValue.Length(Kappa, e => e.Card.Engine.Heat?.Intake);

    /// <summary>κ of the exhaust side; read after the other.</summary>
    public static CardValue Exhaust { get; } = new($"{Kappa}.exhaust", ReadExhaust, WriteExhaust);

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
            draft.Problems.Add(new JobProblem(nameof(CardForm.Kappa), "nothing was entered", "the exhaust side has a figure of its own: enter that of the intake side too"));
        }
    }

    private static string WriteExhaust(Bench.Engines.StoredEngine engine, LengthStyle lengths) =>
        engine.Card.Engine.Heat is { IsEven: false } heat ? lengths.Field(heat.Exhaust) : "";
}
