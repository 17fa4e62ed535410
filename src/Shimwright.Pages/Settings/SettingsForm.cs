namespace Shimwright.Pages.Settings;

/// <summary>Sizes to buy as they stand in the fields.</summary>
public sealed class KitFields
{
    public string? From { get; set; }

    public string? To { get; set; }

    public string? Step { get; set; }

    public string? Price { get; set; }

    public bool IsBlank => string.IsNullOrWhiteSpace(From + To + Step + Price);
}

/// <summary>What the bench knows and reckons with, as it stands in the fields.</summary>
public sealed class SettingsForm
{
    public int Version { get; set; }

    /// <summary>The unit in which the fields were shown, and so in which their numbers are.</summary>
    public string? Unit { get; set; }

    public string? Blades { get; set; }

    public string? Redo { get; set; }

    public string? Lift { get; set; }

    public string? Swap { get; set; }

    public string? Disturb { get; set; }

    public string? MinutesPerCurrency { get; set; }

    public string? TakesBlade { get; set; }

    public string? TakesStack { get; set; }

    public string? TakesBucket { get; set; }

    public string? TakesMicrometer { get; set; }

    public string? TakesDepth { get; set; }

    public string? TakesDryFit { get; set; }

    public List<KitFields> Kits { get; set; } = [];

    public string? Firm { get; set; }

    public string? Light { get; set; }

    public string? Loose { get; set; }

    public string? Spread { get; set; }

    public string? Slip { get; set; }

    public string? Doubt { get; set; }

    public string? Blade { get; set; }

    public string? Seating { get; set; }

    public string? KeepFloor { get; set; }

    public string? PassFloor { get; set; }

    public string? Risk { get; set; }

    public string? ServiceLevel { get; set; }
}

/// <summary>How the bench looks and writes, as it stands in the fields.</summary>
public sealed class LookForm
{
    public int Version { get; set; }

    public string? Unit { get; set; }

    public string? Distance { get; set; }

    public string? Theme { get; set; }

    public bool NextComes { get; set; }

    public string? Currency { get; set; }

    public string? Zone { get; set; }
}
