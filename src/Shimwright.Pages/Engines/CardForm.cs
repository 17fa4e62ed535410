namespace Shimwright.Pages.Engines;

/// <summary>One valve of the card as it stands in the fields.</summary>
public sealed class ValveFields
{
    /// <summary>The name under which it is kept; blank for a new one. What has no field stays with it.</summary>
    public string? Was { get; set; }

    /// <summary>Its name; a valve without one is taken off the card.</summary>
    public string? Id { get; set; }

    public string? Cylinder { get; set; }

    public string? Side { get; set; }

    public string? Access { get; set; }

    public string? Low { get; set; }

    public string? High { get; set; }
}

/// <summary>The minutes of an access group as they stand in the fields.</summary>
public sealed class AccessFields
{
    public string? Name { get; set; }

    public string? Minutes { get; set; }
}

/// <summary>Everything of a card as it stands in the fields: text, right or wrong.</summary>
public sealed class CardForm
{
    public int Version { get; set; }

    public int CardVersion { get; set; }

    public string? Name { get; set; }

    public string? Valvetrain { get; set; }

    public string? Ratio { get; set; }

    public string? Pitch { get; set; }

    public string? Kappa { get; set; }

    public List<ValveFields> Valves { get; set; } = [];

    /// <summary>Limits for all intake or all exhaust valves; blank where each keeps its own.</summary>
    public string? IntakeLow { get; set; }

    public string? IntakeHigh { get; set; }

    public string? ExhaustLow { get; set; }

    public string? ExhaustHigh { get; set; }

    public string? Order { get; set; }

    public string? Angles { get; set; }

    public string? Marks { get; set; }

    public string? StopsAt { get; set; }

    public string? Ramp { get; set; }

    public string? IntakeOpens { get; set; }

    public string? IntakeCloses { get; set; }

    public string? ExhaustOpens { get; set; }

    public string? ExhaustCloses { get; set; }

    public string? Turning { get; set; }

    public string? Clock { get; set; }

    public string? Interval { get; set; }

    public string? Loss { get; set; }

    public string? Spread { get; set; }

    public List<AccessFields> Access { get; set; } = [];

    public string? ShimDiameter { get; set; }

    public string? Thinnest { get; set; }

    public string? Thickest { get; set; }

    public string? LimitsFrom { get; set; }

    public string? CardNotes { get; set; }

    public string? Notes { get; set; }

    /// <summary>The valves that have a name or had one.</summary>
    public IEnumerable<ValveFields> NamedValves => Valves.Where(v => !string.IsNullOrWhiteSpace(v.Id));

    /// <summary>Every field with its text, by name.</summary>
    public IEnumerable<KeyValuePair<string, string>> Fields()
    {
        foreach ((string name, string? text) in Single())
        {
            yield return new(name, text?.Trim() ?? "");
        }

        foreach ((int v, ValveFields valve) in Valves.Index().Where(v => !string.IsNullOrWhiteSpace(v.Item.Id)))
        {
            foreach ((string name, string? text) in new[]
            {
                ("Id", valve.Id), ("Cylinder", valve.Cylinder), ("Side", valve.Side), ("Access", valve.Access), ("Low", valve.Low), ("High", valve.High),
            })
            {
                yield return new($"Valves[{v}].{name}", text?.Trim() ?? "");
            }
        }

        foreach ((int a, AccessFields access) in Access.Index())
        {
            yield return new($"Access[{a}].Minutes", access.Minutes?.Trim() ?? "");
        }
    }

    private IEnumerable<(string, string?)> Single() =>
    [
        ("Name", Name), ("Valvetrain", Valvetrain), ("Ratio", Ratio), ("Pitch", Pitch), ("Kappa", Kappa),
        ("Order", Order), ("Angles", Angles), ("Marks", Marks), ("StopsAt", StopsAt), ("Ramp", Ramp),
        ("IntakeOpens", IntakeOpens), ("IntakeCloses", IntakeCloses), ("ExhaustOpens", ExhaustOpens), ("ExhaustCloses", ExhaustCloses), ("Turning", Turning),
        ("Clock", Clock), ("Interval", Interval), ("Loss", Loss), ("Spread", Spread),
        ("ShimDiameter", ShimDiameter), ("Thinnest", Thinnest), ("Thickest", Thickest), ("LimitsFrom", LimitsFrom), ("CardNotes", CardNotes), ("Notes", Notes),
    ];
}
