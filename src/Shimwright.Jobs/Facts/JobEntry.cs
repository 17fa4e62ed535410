using System.Text.Json;
using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Facts;

/// <summary>A fact with where it comes from.</summary>
/// <param name="Number">Its place on the job's sheet, from 1.</param>
/// <param name="Action">The action that added it; the same action sent twice counts once.</param>
/// <param name="Device">The device that sent it.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="Fact">The fact.</param>
public sealed record JobEntry(int Number, Guid Action, string Device, DateTime At, JobFact Fact);

/// <summary>Facts as JSON, the form in which they are kept.</summary>
public static class FactJson
{
    /// <summary>Writes a fact.</summary>
    /// <param name="fact">The fact.</param>
    /// <returns>JSON in one line.</returns>
    public static string Write(JobFact fact) => JsonSerializer.Serialize(fact, FactJsonContext.Default.JobFact);

    /// <summary>Reads a fact that was written here.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The fact.</returns>
    /// <exception cref="JsonException">It is no fact that was written here.</exception>
    public static JobFact Read(string json) =>
        JsonSerializer.Deserialize(json, FactJsonContext.Default.JobFact)
        ?? throw new JsonException("A fact cannot be null.");

    /// <summary>Whether every number of a fact is one that can be kept: neither NaN nor infinite.</summary>
    /// <param name="fact">The fact.</param>
    /// <returns>Whether they are.</returns>
    public static bool CanBeKept(JobFact fact)
    {
        try
        {
            _ = Write(fact);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }
}

// What is missing or null where the fact has no place for it is refused at the door, not met later as a null.
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true,
    AllowOutOfOrderMetadataProperties = true)]
[JsonSerializable(typeof(JobFact))]
internal sealed partial class FactJsonContext : JsonSerializerContext;
