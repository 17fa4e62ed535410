using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Written;

/// <summary>Reads a number that a file may have as text with a unit; files are judged before, so that what stands there is one.</summary>
internal static class Measured
{
    public static double Read(ref Utf8JsonReader reader, Measure measure) => reader.TokenType == JsonTokenType.String
        ? MeasuredText.Read(reader.GetString()!, measure) ?? throw new JsonException("A quantity that cannot be read was let through.")
        : reader.GetDouble();
}

/// <summary>A length in millimetres.</summary>
internal sealed class Millimetres : JsonConverter<double>
{
    public override double Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => Measured.Read(ref reader, Measure.Length);

    public override void Write(Utf8JsonWriter writer, double value, JsonSerializerOptions options) => writer.WriteNumberValue(value);
}

/// <summary>A whole number, or none. A file may write it as 1E+2.</summary>
internal sealed class WholeIfAny : JsonConverter<int?>
{
    public override int? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.Null ? null : (int)reader.GetDouble();

    public override void Write(Utf8JsonWriter writer, int? value, JsonSerializerOptions options)
    {
        if (value is { } number)
        {
            writer.WriteNumberValue(number);
        }
        else
        {
            writer.WriteNullValue();
        }
    }
}

/// <summary>A quantity that may have been left out.</summary>
internal abstract class QuantityIfAny(Measure measure) : JsonConverter<double?>
{
    public override double? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.Null ? null : Measured.Read(ref reader, measure);

    public override void Write(Utf8JsonWriter writer, double? value, JsonSerializerOptions options)
    {
        if (value is { } number)
        {
            writer.WriteNumberValue(number);
        }
        else
        {
            writer.WriteNullValue();
        }
    }
}

/// <summary>A length in millimetres, or none.</summary>
internal sealed class MillimetresIfAny() : QuantityIfAny(Measure.Length);

/// <summary>A temperature in degrees Celsius, or none.</summary>
internal sealed class DegreesIfAny() : QuantityIfAny(Measure.Temperature);

/// <summary>A time of work in minutes, or none.</summary>
internal sealed class MinutesIfAny() : QuantityIfAny(Measure.Duration);

/// <summary>Lengths in millimetres.</summary>
internal sealed class MillimetresInAList : JsonConverter<IReadOnlyList<double>>
{
    public override IReadOnlyList<double> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        List<double> lengths = [];
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            lengths.Add(Measured.Read(ref reader, Measure.Length));
        }

        return lengths;
    }

    public override void Write(Utf8JsonWriter writer, IReadOnlyList<double> value, JsonSerializerOptions options)
    {
        writer.WriteStartArray();
        foreach (double length in value)
        {
            writer.WriteNumberValue(length);
        }

        writer.WriteEndArray();
    }
}

/// <summary>Minutes by name.</summary>
internal sealed class MinutesInAMap : JsonConverter<IReadOnlyDictionary<string, double>>
{
    public override IReadOnlyDictionary<string, double> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        Dictionary<string, double> minutes = new(StringComparer.Ordinal);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            string name = reader.GetString()!;
            reader.Read();
            minutes.Add(name, Measured.Read(ref reader, Measure.Duration));
        }

        return minutes;
    }

    public override void Write(Utf8JsonWriter writer, IReadOnlyDictionary<string, double> value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        foreach ((string name, double minutes) in value)
        {
            writer.WriteNumber(name, minutes);
        }

        writer.WriteEndObject();
    }
}

/// <summary>One row of sizes or a list of them.</summary>
internal sealed class OneOrManySizes : JsonConverter<IReadOnlyList<WrittenSizes>>
{
    public override IReadOnlyList<WrittenSizes> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.StartObject)
        {
            return [JsonSerializer.Deserialize(ref reader, WrittenContext.Default.WrittenSizes)!];
        }

        List<WrittenSizes> sizes = [];
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            sizes.Add(JsonSerializer.Deserialize(ref reader, WrittenContext.Default.WrittenSizes)!);
        }

        return sizes;
    }

    public override void Write(Utf8JsonWriter writer, IReadOnlyList<WrittenSizes> value, JsonSerializerOptions options)
    {
        writer.WriteStartArray();
        foreach (WrittenSizes sizes in value)
        {
            JsonSerializer.Serialize(writer, sizes, WrittenContext.Default.WrittenSizes);
        }

        writer.WriteEndArray();
    }
}
