namespace Shimwright.Storage.Database;

/// <summary>
/// The forecast of an engine as it was worked out last, with what it rested on: it is stale where any of that is another now.
/// It follows from the jobs and can be thrown away at any time.
/// </summary>
internal sealed class KeptForecastRow
{
    public Guid EngineId { get; set; }

    /// <summary>What the engine had counted.</summary>
    public int Changes { get; set; }

    public int CardVersion { get; set; }

    public int RatesVersion { get; set; }

    /// <summary>Tells the settings that matter here from others.</summary>
    public string SettingsMark { get; set; } = "";

    /// <summary>How many times the engine was checked.</summary>
    public int Checks { get; set; }

    /// <summary>The engine's clock at the last check.</summary>
    public double Clock { get; set; }

    /// <summary>What the clock showed last, and when.</summary>
    public double LastClock { get; set; }

    public DateTime LastAt { get; set; }

    /// <summary>The clock by which to check again; null where it cannot be said.</summary>
    public double? CheckBy { get; set; }

    public bool CountsKilometres { get; set; }

    public double? PerWeek { get; set; }

    public int Usage { get; set; }

    /// <summary>The day on which the clock will show it; null where usage is not known.</summary>
    public DateTime? DueAt { get; set; }

    /// <summary>The risk at which a check is due.</summary>
    public double Risk { get; set; }

    /// <summary>The risk curve: clocks and chances by turns.</summary>
    public string Curve { get; set; } = "[]";

    /// <summary>Its valves as the last check left them, for the shims they will want; blank where it was kept before that was.</summary>
    public string Valves { get; set; } = "";

    /// <summary>What the valves of each side say of their rates: rates and uncertainties by turns.</summary>
    public string IntakeEvidence { get; set; } = "[]";

    public string ExhaustEvidence { get; set; } = "[]";
}

/// <summary>How fast the valves of a card's engines wear, as these have taught; null for a side of which too few say anything.</summary>
internal sealed class CardRatesRow
{
    public Guid CardId { get; set; }

    /// <summary>Counts the changes that matter to a forecast.</summary>
    public int Version { get; set; }

    public double? IntakeMean { get; set; }

    public double? IntakeSpread { get; set; }

    public double? ExhaustMean { get; set; }

    public double? ExhaustSpread { get; set; }
}
