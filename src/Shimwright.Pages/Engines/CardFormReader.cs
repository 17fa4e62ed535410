using System.Text.Json.Nodes;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>A card's form read: the card and what is kept beside it, or every problem under the name of its field.</summary>
/// <param name="Card">The card; null where there are problems.</param>
/// <param name="Details">What a job file has no place for.</param>
/// <param name="Problems">All problems.</param>
internal sealed record CardFormReading(EngineCard? Card, CardDetails Details, IReadOnlyList<JobProblem> Problems);

/// <summary>Reads a card's form. What the form has no field for, such as cam events of a single valve, stays as it was.</summary>
internal static class CardFormReader
{
    /// <summary>Reads the form; limits for a whole side are put into the valves' fields first.</summary>
    /// <param name="form">The form.</param>
    /// <param name="before">The card as it was kept.</param>
    /// <param name="lengths">The bench's unit.</param>
    public static CardFormReading Read(CardForm form, EngineCard before, LengthStyle lengths)
    {
        SetSide(form, "intake", form.IntakeLow, form.IntakeHigh);
        SetSide(form, "exhaust", form.ExhaustLow, form.ExhaustHigh);
        CardDraft draft = new(form, before, lengths);
        ReadFields(draft, CardPart.Head, CardPart.Kind, CardPart.Train);
        IReadOnlyList<int> rows = ReadValves(draft);
        ReadFields(draft, CardPart.Crank, CardPart.Wear, CardPart.Foot);
        ReadMinutes(draft);
        JobProblem[] ofDetails = [.. DetailRules.ProblemsOf(draft.Details, [.. draft.Details.AccessMinutes.Keys]).Select(AtItsField)];
        JobProblem[] read = [.. draft.Problems, .. ofDetails];
        HashSet<string> known = [.. read.Select(p => p.Path)];
        ParsedCard card = EngineCard.Read(draft.Card);
        JobProblem[] problems =
        [
            .. read,
            .. card.Problems.Select(AtItsField).Where(p => !known.Contains(p.Path) && !known.Contains(p.Path.Replace(".Low", ".High", StringComparison.Ordinal))),
        ];
        return new(problems.Length == 0 ? card.Card : null, draft.Details, problems);

        JobProblem AtItsField(JobProblem problem) => problem with { Path = CardFields.FieldOf(problem.Path, form, rows) };
    }

    private static void SetSide(CardForm form, string side, string? low, string? high)
    {
        foreach (ValveFields valve in form.Valves.Where(v => v.IsNamed && v.Side == side))
        {
            valve.Low = string.IsNullOrWhiteSpace(low) ? valve.Low : low;
            valve.High = string.IsNullOrWhiteSpace(high) ? valve.High : high;
        }
    }

    private static void ReadFields(CardDraft draft, params CardPart[] parts)
    {
        foreach (CardField field in parts.SelectMany(CardForm.In))
        {
            field.Value.Read(draft, field.Name, draft.Form[field]);
        }
    }

    /// <summary>Reads the valves; says the row of each.</summary>
    private static List<int> ReadValves(CardDraft draft)
    {
        var kept = ((JsonArray)draft.Card["valves"]!).OfType<JsonObject>().ToDictionary(v => (string)v["id"]!, StringComparer.Ordinal);
        List<int> rows = [];
        JsonArray valves = [];
        foreach ((int row, ValveFields fields) in draft.Form.Valves.Index().Where(v => v.Item.IsNamed))
        {
            string path = $"Valves[{row}]";
            JsonObject valve = kept.TryGetValue(fields.Was ?? "", out JsonObject? before) ? (JsonObject)before.DeepClone() : [];
            valve["id"] = fields.Id!.Trim();
            CardDraft.Put(valve, "cylinder", TypedNumber.Plain(fields.Cylinder, $"{path}.Cylinder").Note(draft.Problems) is { } cylinder ? JsonValue.Create(cylinder) : null);
            valve["side"] = fields.Side;
            valve["access"] = fields.Access?.Trim() ?? "";
            double?[] band = [draft.Lengths.Read(fields.Low, $"{path}.Low").Note(draft.Problems), draft.Lengths.Read(fields.High, $"{path}.High").Note(draft.Problems)];
            valve["band"] = new JsonArray([.. band.OfType<double>().Select(l => JsonValue.Create(l))]);
            valves.Add(valve);
            rows.Add(row);
        }

        draft.Card["valves"] = valves;
        return rows;
    }

    private static void ReadMinutes(CardDraft draft)
    {
        Dictionary<string, double> minutes = new(StringComparer.Ordinal);
        foreach ((int a, AccessFields access) in draft.Form.Access.Index())
        {
            if (TypedNumber.Minutes(access.Minutes, $"Access[{a}].Minutes", needed: false).Note(draft.Problems) is { } value
                && access.Name is { } name && draft.Form.Valves.Any(v => v.IsNamed && v.Access?.Trim() == name))
            {
                minutes[name] = value;
            }
        }

        draft.Details = draft.Details with { AccessMinutes = minutes };
    }
}
