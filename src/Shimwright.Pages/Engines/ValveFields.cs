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

    /// <summary>Each field: its name, what it is called behind the valve's, the members of a valve that it says, and its text.</summary>
    internal static IReadOnlyList<(string Name, string Words, IReadOnlyList<string> Members, Func<ValveFields, string?> Text)> Columns { get; } =
    [
        (nameof(Id), "name", ["id"], v => v.Id),
        (nameof(Cylinder), "cylinder", ["cylinder"], v => v.Cylinder),
        (nameof(Side), "side", ["side"], v => v.Side),
        (nameof(Access), "remove for access", ["access"], v => v.Access),
        (nameof(Low), "lower limit", ["band", "band[0]"], v => v.Low),
        (nameof(High), "upper limit", ["band[1]"], v => v.High),
    ];

    /// <summary>Whether the valve is on the card.</summary>
    internal bool IsNamed => !string.IsNullOrWhiteSpace(Id);
}

/// <summary>The minutes of an access group as they stand in the fields.</summary>
public sealed class AccessFields
{
    public string? Name { get; set; }

    public string? Minutes { get; set; }
}
