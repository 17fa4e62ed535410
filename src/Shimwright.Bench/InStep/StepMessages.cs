using System.Text.Json;
using System.Text.Json.Serialization;

namespace Shimwright.Bench.InStep;

/// <summary>What a bench away from the shared one sends.</summary>
/// <param name="Pocket">Which bench it is: an id that it has made for itself.</param>
/// <param name="Now">The time by its clock, UTC.</param>
/// <param name="Bench">The shared bench that it means; blank at the first time.</param>
/// <param name="Deeds">What was done there, in order.</param>
public sealed record StepSent(Guid Pocket, DateTime Now, string Bench, IReadOnlyList<Deed> Deeds);

/// <summary>What the shared bench answers.</summary>
/// <param name="Bench">Which bench it is. Where another was meant, nothing was done.</param>
/// <param name="Device">What it writes beside what this device sends.</param>
/// <param name="Answers">What became of each deed; of those that are missing nothing is known, and they are sent again.</param>
public sealed record StepAnswered(string Bench, string Device, IReadOnlyList<DeedAnswer> Answers);

/// <summary>A row under its key, as it is now; null where nothing lies there.</summary>
/// <param name="Key">The key.</param>
/// <param name="Row">The row, as a line of an archive.</param>
public sealed record StepRow(string Key, string? Row);

/// <summary>What has changed on the shared bench, or a first part of it.</summary>
/// <param name="Mark">How far it reaches.</param>
/// <param name="Rows">The rows that are new or others now.</param>
/// <param name="Removed">Engines that were removed for good.</param>
/// <param name="Pictures">Pictures that were added; each is fetched by itself.</param>
/// <param name="HasMore">Whether more has changed.</param>
public sealed record StepChanges(StepMark Mark, IReadOnlyList<StepRow> Rows, IReadOnlyList<Guid> Removed, IReadOnlyList<Guid> Pictures, bool HasMore);

/// <summary>The messages as JSON.</summary>
public static class StepJson
{
    /// <summary>The most deeds of one message.</summary>
    public const int MostDeeds = 100;

    /// <summary>How large the deeds of one message may be together, bytes; one that is larger goes alone.</summary>
    public const int MostBytes = 512 * 1024;

    /// <summary>The largest message, bytes: a photo may be in it.</summary>
    public const int Largest = 34 * 1024 * 1024;

    /// <summary>Writes what is sent.</summary>
    /// <param name="sent">It.</param>
    /// <returns>JSON.</returns>
    public static string Write(StepSent sent) => JsonSerializer.Serialize(sent, StepContext.Default.StepSent);

    /// <summary>Reads what was sent. It is not trusted.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>It; null where it is none, or too much.</returns>
    public static StepSent? ReadSent(ReadOnlySpan<byte> json)
    {
        try
        {
            return JsonSerializer.Deserialize(json, StepContext.Default.StepSent) is { Deeds.Count: <= MostDeeds } sent && sent.Pocket != Guid.Empty && sent.Deeds.All(d => d is not null && d.Id != Guid.Empty)
                ? sent : null;
        }
        catch (Exception e) when (e is JsonException or FormatException or ArgumentException or InvalidOperationException or NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>Writes an answer.</summary>
    /// <param name="answered">The answer.</param>
    /// <returns>JSON.</returns>
    public static string Write(StepAnswered answered) => JsonSerializer.Serialize(answered, StepContext.Default.StepAnswered);

    /// <summary>Reads an answer.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="JsonException">It is none.</exception>
    public static StepAnswered ReadAnswered(string json) => JsonSerializer.Deserialize(json, StepContext.Default.StepAnswered) ?? throw new JsonException("An answer cannot be null.");

    /// <summary>Writes changes.</summary>
    /// <param name="changes">The changes.</param>
    /// <returns>JSON.</returns>
    public static string Write(StepChanges changes) => JsonSerializer.Serialize(changes, StepContext.Default.StepChanges);

    /// <summary>Reads changes.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The changes.</returns>
    /// <exception cref="JsonException">They are none.</exception>
    public static StepChanges ReadChanges(string json) => JsonSerializer.Deserialize(json, StepContext.Default.StepChanges) ?? throw new JsonException("Changes cannot be null.");

    /// <summary>Writes a deed in one line.</summary>
    /// <param name="deed">The deed.</param>
    /// <returns>JSON.</returns>
    public static string Write(Deed deed) => JsonSerializer.Serialize(deed, StepContext.Default.Deed);

    /// <summary>Reads a deed that was written here.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The deed.</returns>
    /// <exception cref="JsonException">It is none.</exception>
    public static Deed ReadDeed(string json) => JsonSerializer.Deserialize(json, StepContext.Default.Deed) ?? throw new JsonException("A deed cannot be null.");

    /// <summary>Writes what became of a deed.</summary>
    /// <param name="answer">It.</param>
    /// <returns>JSON.</returns>
    public static string Write(DeedAnswer answer) => JsonSerializer.Serialize(answer, StepContext.Default.DeedAnswer);

    /// <summary>Reads what became of a deed.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>It.</returns>
    /// <exception cref="JsonException">It is none.</exception>
    public static DeedAnswer ReadAnswer(string json) => JsonSerializer.Deserialize(json, StepContext.Default.DeedAnswer) ?? throw new JsonException("An answer cannot be null.");

    /// <summary>Writes a mark.</summary>
    /// <param name="mark">The mark.</param>
    /// <returns>JSON.</returns>
    public static string Write(StepMark mark) => JsonSerializer.Serialize(mark, StepContext.Default.StepMark);

    /// <summary>Reads a mark.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The mark.</returns>
    /// <exception cref="JsonException">It is none.</exception>
    public static StepMark ReadMark(string json) => JsonSerializer.Deserialize(json, StepContext.Default.StepMark) ?? throw new JsonException("A mark cannot be null.");

    /// <summary>Writes a picture.</summary>
    /// <param name="picture">The picture.</param>
    /// <returns>JSON.</returns>
    public static string Write(Contents.KeptPicture picture) => JsonSerializer.Serialize(picture, StepContext.Default.KeptPicture);

    /// <summary>Reads a picture.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The picture.</returns>
    /// <exception cref="JsonException">It is none.</exception>
    public static Contents.KeptPicture ReadPicture(string json) => JsonSerializer.Deserialize(json, StepContext.Default.KeptPicture) ?? throw new JsonException("A picture cannot be null.");
}

[JsonSourceGenerationOptions(
    JsonSerializerDefaults.Web, UseStringEnumConverter = true, IgnoreReadOnlyProperties = true, RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true, NumberHandling = JsonNumberHandling.Strict, AllowOutOfOrderMetadataProperties = true)]
[JsonSerializable(typeof(StepSent))]
[JsonSerializable(typeof(StepAnswered))]
[JsonSerializable(typeof(StepChanges))]
[JsonSerializable(typeof(Deed))]
internal sealed partial class StepContext : JsonSerializerContext;
