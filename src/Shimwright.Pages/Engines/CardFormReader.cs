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
internal sealed class CardFormReader
{
    private readonly CardForm _form;
    private readonly LengthStyle _lengths;
    private readonly JsonObject _before;
    private readonly List<JobProblem> _problems = [];
    private readonly List<int> _rows = [];

    private CardFormReader(CardForm form, EngineCard before, LengthStyle lengths)
    {
        _form = form;
        _lengths = lengths;
        _before = (JsonObject)JsonNode.Parse(before.Json)!;
    }

    /// <summary>Reads the form; limits for a whole side are put into the valves' fields first.</summary>
    /// <param name="form">The form.</param>
    /// <param name="before">The card as it was kept.</param>
    /// <param name="lengths">The bench's unit.</param>
    public static CardFormReading Read(CardForm form, EngineCard before, LengthStyle lengths)
    {
        var reader = new CardFormReader(form, before, lengths);
        reader.SetSide("intake", form.IntakeLow, form.IntakeHigh);
        reader.SetSide("exhaust", form.ExhaustLow, form.ExhaustHigh);
        ParsedCard card = EngineCard.Read(reader.Card());
        CardDetails details = reader.Details();
        HashSet<string> known = [.. reader._problems.Select(p => p.Path)];
        JobProblem[] ofCard = [.. card.Problems.Select(p => p with { Path = CardFields.FieldOf(p.Path, reader._rows) })
            .Where(p => !known.Contains(p.Path) && !known.Contains(p.Path.Replace(".Low", ".High", StringComparison.Ordinal)))];
        JobProblem[] problems = [.. reader._problems, .. ofCard];
        return new(problems.Length == 0 ? card.Card : null, details, problems);
    }

    private void SetSide(string side, string? low, string? high)
    {
        foreach (ValveFields valve in _form.NamedValves.Where(v => v.Side == side))
        {
            valve.Low = string.IsNullOrWhiteSpace(low) ? valve.Low : low;
            valve.High = string.IsNullOrWhiteSpace(high) ? valve.High : high;
        }
    }

    private JsonObject Card()
    {
        JsonObject card = (JsonObject)_before.DeepClone();
        card["name"] = _form.Name?.Trim() ?? "";
        card["valvetrain"] = _form.Valvetrain;
        Put(card, "ratio", TypedNumber.Plain(_form.Ratio, "Ratio", needed: false));
        Put(card, "pitch", _lengths.Read(_form.Pitch, "Pitch", needed: false));
        double? kappa = _lengths.Read(_form.Kappa, "Kappa", needed: false).Note(_problems);
        Put(card, "temperature", kappa is { } k ? new JsonObject { ["kappaMmPerC"] = k } : null);
        card["valves"] = Valves();
        Put(card, "layout", new CardLayoutReader(_form, _problems).Read());
        Put(card, "wear", Wear());
        return card;
    }

    private JsonArray Valves()
    {
        var kept = ((JsonArray)_before["valves"]!).OfType<JsonObject>().ToDictionary(v => (string)v["id"]!, StringComparer.Ordinal);
        JsonArray valves = [];
        foreach ((int row, ValveFields fields) in _form.Valves.Index())
        {
            if (string.IsNullOrWhiteSpace(fields.Id))
            {
                continue;
            }

            string path = $"Valves[{row}]";
            JsonObject valve = kept.TryGetValue(fields.Was ?? "", out JsonObject? before) ? (JsonObject)before.DeepClone() : [];
            valve["id"] = fields.Id.Trim();
            Put(valve, "cylinder", TypedNumber.Plain(fields.Cylinder, $"{path}.Cylinder"));
            valve["side"] = fields.Side;
            valve["access"] = fields.Access?.Trim() ?? "";
            double?[] band = [_lengths.Read(fields.Low, $"{path}.Low").Note(_problems), _lengths.Read(fields.High, $"{path}.High").Note(_problems)];
            valve["band"] = new JsonArray([.. band.OfType<double>().Select(l => JsonValue.Create(l))]);
            valves.Add(valve);
            _rows.Add(row);
        }

        return valves;
    }

    private JsonObject? Wear()
    {
        double? interval = TypedNumber.Clock(_form.Interval, "Interval", _form.Clock == "km" ? "km" : "h", needed: false).Note(_problems);
        double? loss = _lengths.Read(_form.Loss, "Loss", needed: false).Note(_problems);
        double? spread = _lengths.Read(_form.Spread, "Spread", needed: false).Note(_problems);
        if (interval is null && loss is null && spread is null && _form.Clock != "km")
        {
            return null;
        }

        JsonObject wear = new() { ["clock"] = _form.Clock };
        Put(wear, "interval", interval is { } i ? JsonValue.Create(i) : null);
        Put(wear, "lossPerInterval", loss is { } l ? JsonValue.Create(l) : null);
        Put(wear, "spread", spread is { } s ? JsonValue.Create(s) : null);
        return wear;
    }

    private CardDetails Details()
    {
        Dictionary<string, double> minutes = new(StringComparer.Ordinal);
        foreach ((int a, AccessFields access) in _form.Access.Index())
        {
            if (TypedNumber.Minutes(access.Minutes, $"Access[{a}].Minutes", needed: false).Note(_problems) is { } value
                && access.Name is { } name && _form.NamedValves.Any(v => v.Access?.Trim() == name))
            {
                minutes[name] = value;
            }
        }

        CardDetails details = new()
        {
            ShimDiameter = _lengths.Read(_form.ShimDiameter, "ShimDiameter", needed: false).Note(_problems),
            ThinnestShim = _lengths.Read(_form.Thinnest, "Thinnest", needed: false).Note(_problems),
            ThickestShim = _lengths.Read(_form.Thickest, "Thickest", needed: false).Note(_problems),
            AccessMinutes = minutes,
            LimitsFrom = _form.LimitsFrom?.Trim() ?? "",
            Notes = _form.CardNotes?.Trim() ?? "",
        };
        _problems.AddRange(DetailRules.ProblemsOf(details, [.. minutes.Keys]).Select(p => p with { Path = DetailField(p.Path) }));
        if (_form.Notes?.Length > DetailRules.LongestText)
        {
            _problems.Add(new("Notes", $"found {_form.Notes.Length} characters", $"allowed are {DetailRules.LongestText}"));
        }

        return details;
    }

    private string DetailField(string path) => path switch
    {
        "shimDiameter" => "ShimDiameter",
        "thinnestShim" => "Thinnest",
        "thickestShim" => "Thickest",
        "limitsFrom" => "LimitsFrom",
        "notes" => "CardNotes",
        _ => $"Access[{_form.Access.FindIndex(a => path == $"accessMinutes.{a.Name}")}].Minutes",
    };

    private void Put(JsonObject into, string name, TypedNumber number) =>
        Put(into, name, number.Note(_problems) is { } value ? JsonValue.Create(value) : null);

    /// <summary>Puts a member in, or takes it away where there is none.</summary>
    internal static void Put(JsonObject into, string name, JsonNode? value)
    {
        if (value is null)
        {
            into.Remove(name);
        }
        else
        {
            into[name] = value;
        }
    }
}
