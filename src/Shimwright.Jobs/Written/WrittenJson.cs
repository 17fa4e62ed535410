using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Written;

/// <summary>Jobs as they were written down as JSON: the form of files, and of what a job started from.</summary>
internal static class WrittenJson
{
    /// <summary>Knows every kind of record here, and the names of its members in a file.</summary>
    public static JsonSerializerOptions Names => WrittenContext.Default.Options;

    /// <summary>Reads a job file that was judged and found right.</summary>
    public static WrittenJob Read(ReadOnlySpan<byte> utf8) => JsonSerializer.Deserialize(utf8, WrittenContext.Default.WrittenJob)!;

    /// <summary>The members of a job file that a job has, in their order.</summary>
    public static JsonObject Write(WrittenJob job) => (JsonObject)JsonSerializer.SerializeToNode(job, WrittenContext.Default.WrittenJob)!;
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(WrittenJob))]
[JsonSerializable(typeof(WrittenStart))]
internal sealed partial class WrittenContext : JsonSerializerContext;
