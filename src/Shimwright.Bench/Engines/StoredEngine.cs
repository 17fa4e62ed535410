using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Jobs.Cards;

namespace Shimwright.Bench.Engines;

/// <summary>What is kept of an engine card beside what a job file has a place for.</summary>
public sealed record CardDetails
{
    /// <summary>Diameter of its shims, mm; null where it has none or it is not known.</summary>
    public double? ShimDiameter { get; init; }

    /// <summary>The thinnest shim there is for it, mm, or null.</summary>
    public double? ThinnestShim { get; init; }

    /// <summary>The thickest shim there is for it, mm, or null.</summary>
    public double? ThickestShim { get; init; }

    /// <summary>Minutes to lift each access group.</summary>
    public IReadOnlyDictionary<string, double> AccessMinutes { get; init; } = new Dictionary<string, double>();

    /// <summary>Where the limits come from: manual, edition, page.</summary>
    public string LimitsFrom { get; init; } = "";

    /// <summary>Notes.</summary>
    public string Notes { get; init; } = "";

    /// <summary>The details as JSON, the form in which they are kept.</summary>
    /// <returns>JSON.</returns>
    public string ToJson() => JsonSerializer.Serialize(this, CardDetailsContext.Default.CardDetails);

    /// <summary>Reads details that were kept.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The details; what they do not say, since it was not there yet, is blank.</returns>
    public static CardDetails Read(string json)
    {
        CardDetails read = JsonSerializer.Deserialize(json, CardDetailsContext.Default.CardDetails) ?? new();
        // The generated reader takes a member that is missing for null, whatever its default is.
        return read with
        {
            AccessMinutes = read.AccessMinutes ?? new Dictionary<string, double>(),
            LimitsFrom = read.LimitsFrom ?? "",
            Notes = read.Notes ?? "",
        };
    }
}

/// <summary>An engine in a list.</summary>
/// <param name="Id">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="CardId">Its card.</param>
/// <param name="CardTitle">The card's title.</param>
/// <param name="OpenJobs">How many of its jobs are open, discarded ones left out.</param>
/// <param name="LastClock">The highest clock of its jobs, discarded ones left out, or null where there are none.</param>
public sealed record EngineSummary(Guid Id, string Name, Guid CardId, string CardTitle, int OpenJobs, double? LastClock);

/// <summary>An engine with its card.</summary>
/// <param name="Id">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="Notes">Notes on this engine.</param>
/// <param name="Version">The engine's version, to be given back when it is saved.</param>
/// <param name="CardId">Its card.</param>
/// <param name="CardTitle">The card's title.</param>
/// <param name="CardVersion">The card's version, to be given back when it is saved.</param>
/// <param name="SharedBy">How many engines use the card, this one included.</param>
/// <param name="Card">The card, under the engine's name.</param>
/// <param name="Details">What a job file has no place for.</param>
/// <param name="Papers">Owner and frame number.</param>
/// <param name="RetiredAt">When it was retired, UTC; null while it is in use.</param>
public sealed record StoredEngine(
    Guid Id, string Name, string Notes, int Version, Guid CardId, string CardTitle, int CardVersion, int SharedBy, EngineCard Card, CardDetails Details,
    EnginePapers Papers, DateTime? RetiredAt = null);

/// <summary>What became of a change.</summary>
public enum SaveOutcome
{
    /// <summary>It is on the disk.</summary>
    Saved,

    /// <summary>Another device has changed it in between; nothing was saved.</summary>
    ChangedMeanwhile,

    /// <summary>There is no such engine.</summary>
    NoSuchEngine,
}

[JsonSourceGenerationOptions(JsonSerializerDefaults.Web)]
[JsonSerializable(typeof(CardDetails))]
internal sealed partial class CardDetailsContext : JsonSerializerContext;
