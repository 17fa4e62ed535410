using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Shimwright.Jobs.Results;

/// <summary>A bad line of a batch.</summary>
/// <param name="Line">The line, from 1.</param>
/// <param name="Errors">What is wrong with it.</param>
public sealed record BadLine(int Line, IReadOnlyList<string> Errors);

/// <summary>Answers as JSON, in one document each.</summary>
public static class ResultJson
{
    private static readonly JsonSerializerOptions Readable = Options(indented: true);
    private static readonly JsonSerializerOptions Compact = Options(indented: false);

    /// <summary>Writes an answer.</summary>
    /// <typeparam name="T">The kind of answer.</typeparam>
    /// <param name="result">The answer.</param>
    /// <param name="indented">Whether for reading, over several lines, or in one line.</param>
    /// <returns>JSON without a line feed at its end.</returns>
    public static string Write<T>(T result, bool indented) =>
        JsonSerializer.Serialize(result, (indented ? Readable : Compact).GetTypeInfo(typeof(T)));

    /// <summary>Reads what was written here.</summary>
    /// <typeparam name="T">The kind of document.</typeparam>
    /// <param name="json">JSON.</param>
    /// <returns>The document.</returns>
    /// <exception cref="JsonException">It is not such a document.</exception>
    public static T Read<T>(string json) =>
        (T?)JsonSerializer.Deserialize(json, Compact.GetTypeInfo(typeof(T))) ?? throw new JsonException("A document cannot be null.");

    /// <summary>Writes a document for reading, over several lines.</summary>
    /// <param name="document">The document.</param>
    /// <returns>JSON without a line feed at its end.</returns>
    public static string Indent(System.Text.Json.Nodes.JsonNode document) => document.ToJsonString(Readable).ReplaceLineEndings("\n");

    /// <summary>How a kind of answer is written.</summary>
    internal static JsonTypeInfo TypeInfo(Type answer) => Compact.GetTypeInfo(answer);

    // The answers go to files and pipes, never into a page as they are: accents may stay as they are.
    private static JsonSerializerOptions Options(bool indented) => new(ResultJsonContext.Default.Options)
    {
        WriteIndented = indented,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(EstimateResult))]
[JsonSerializable(typeof(PlanResult))]
[JsonSerializable(typeof(NextResult))]
[JsonSerializable(typeof(NextRow))]
[JsonSerializable(typeof(VerdictResult))]
[JsonSerializable(typeof(StopsResult))]
[JsonSerializable(typeof(TimingResult))]
[JsonSerializable(typeof(CalibrationResult))]
[JsonSerializable(typeof(ForecastResult))]
[JsonSerializable(typeof(BadLine))]
[JsonSerializable(typeof(CopyResult))]
[JsonSerializable(typeof(CheckResult))]
[JsonSerializable(typeof(JobRecord))]
internal sealed partial class ResultJsonContext : JsonSerializerContext;
