using System.Text.Json;
using System.Text.Json.Serialization;

namespace Shimwright.Bench.Contents;

/// <summary>Writes text that is JSON as what it says, not as text within text, and reads it back letter by letter.</summary>
internal sealed class VerbatimJson : JsonConverter<string>
{
    public override string Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        using JsonDocument value = JsonDocument.ParseValue(ref reader);
        return value.RootElement.GetRawText();
    }

    // A line of an archive is one row. Within a JSON text a line ends only between two things that it says.
    public override void Write(Utf8JsonWriter writer, string value, JsonSerializerOptions options) =>
        writer.WriteRawValue(value.ReplaceLineEndings(" "));
}
