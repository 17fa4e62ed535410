using System.Reflection;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Shimwright.Jobs.Results;

/// <summary>The JSON Schema (draft 2020-12) of an answer, made from the record that is written as it.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Title">What it is, in a few words.</param>
/// <param name="Type">The record.</param>
public sealed record AnswerSchema(string Name, string Title, Type Type)
{
    private const string Draft = "https://json-schema.org/draft/2020-12/schema";

    /// <summary>Every answer that a command prints as JSON.</summary>
    public static IReadOnlyList<AnswerSchema> All { get; } =
    [
        new("estimate", "What 'shimwright estimate --json' prints", typeof(EstimateResult)),
        new("plan", "What 'shimwright plan --json' prints", typeof(PlanResult)),
        new("next", "What 'shimwright next --json' prints", typeof(NextResult)),
        new("verdict", "What 'shimwright verdict --json' prints", typeof(VerdictResult)),
        new("forecast", "What 'shimwright forecast --json' prints", typeof(ForecastResult)),
        new("stops", "What 'shimwright stops --json' prints", typeof(StopsResult)),
        new("timing", "What 'shimwright timing --json' prints", typeof(TimingResult)),
        new("calibration", "What 'shimwright calibrate --json' prints", typeof(CalibrationResult)),
        new("bad-line", "What a batch prints in the place of a bad line", typeof(BadLine)),
        new("copy", "What 'shimwright backup, restore, export and import --json' print", typeof(CopyResult)),
        new("check", "What 'shimwright check --json' prints", typeof(CheckResult)),
    ];

    /// <summary>The schema as text.</summary>
    /// <param name="words">Describes the records.</param>
    /// <returns>JSON.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="words"/> is null.</exception>
    public string Text(AnswerWords words)
    {
        ArgumentNullException.ThrowIfNull(words);
        SortedDictionary<string, JsonNode> rows = new(StringComparer.Ordinal);
        var options = new JsonSchemaExporterOptions { TreatNullObliviousAsNonNullable = true, TransformSchemaNode = (at, node) => Described(at, node, words, rows) };
        JsonObject schema = new()
        {
            ["$schema"] = Draft,
            ["title"] = Title,
        };
        foreach ((string name, JsonNode? value) in ResultJson.TypeInfo(Type).GetJsonSchemaAsNode(options).AsObject().ToArray())
        {
            schema[name] = value?.DeepClone();
        }

        if (rows.Count > 0)
        {
            schema["$defs"] = new JsonObject([.. rows.Select(r => KeyValuePair.Create(r.Key, (JsonNode?)r.Value))]);
        }

        return ResultJson.Indent(schema) + "\n";
    }

    private static JsonObject Described(JsonSchemaExporterContext at, JsonNode node, AnswerWords words, SortedDictionary<string, JsonNode> rows)
    {
        JsonObject schema = node.AsObject();
        if (at.TypeInfo.Kind == JsonTypeInfoKind.Object)
        {
            schema = OfRecord(at, schema, words, rows);
        }

        if (at.PropertyInfo is { AttributeProvider: PropertyInfo property })
        {
            if (property.GetCustomAttribute<WordsAttribute>() is { } oneOf)
            {
                schema = OneOf(oneOf.All, IsNullable(schema));
            }

            if (property.GetCustomAttribute<BoundsAttribute>() is { } bounds)
            {
                Bound(schema, bounds);
            }

            if (IsLeftOut(property))
            {
                // It is left out rather than null.
                schema = schema["anyOf"] is JsonArray either ? either[0]!.DeepClone().AsObject() : NeverNull(schema);
            }

            if (words.Of(property) is { } about)
            {
                schema["description"] = about;
            }
        }

        return schema;
    }

    /// <summary>A record closes its list of members. One within another stands among the definitions, once.</summary>
    private static JsonObject OfRecord(JsonSchemaExporterContext at, JsonObject schema, AnswerWords words, SortedDictionary<string, JsonNode> rows)
    {
        bool canBeNull = IsNullable(schema);
        schema["type"] = "object";
        schema["description"] = words.Of(at.TypeInfo.Type);
        schema["required"] = new JsonArray([.. at.TypeInfo.Properties.Where(IsAlwaysThere).Select(p => JsonValue.Create(p.Name))]);
        schema["additionalProperties"] = false;
        if (at.PropertyInfo is null && at.Path.IsEmpty)
        {
            return schema;
        }

        string name = JsonNamingPolicy.CamelCase.ConvertName(at.TypeInfo.Type.Name);
        rows.TryAdd(name, schema);
        JsonObject pointed = new() { ["$ref"] = $"#/$defs/{name}" };
        return canBeNull ? new JsonObject { ["anyOf"] = new JsonArray(pointed, new JsonObject { ["type"] = "null" }) } : pointed;
    }

    private static bool IsAlwaysThere(JsonPropertyInfo member) =>
        member.Get is not null && member.AttributeProvider is PropertyInfo property && !IsLeftOut(property);

    private static bool IsLeftOut(PropertyInfo property) =>
        property.GetCustomAttribute<JsonIgnoreAttribute>() is { Condition: JsonIgnoreCondition.WhenWritingNull };

    private static JsonObject OneOf(IReadOnlyList<string> words, bool orNull) => words is [var only]
        ? new JsonObject { ["const"] = only }
        : new JsonObject { ["enum"] = new JsonArray([.. words.Select(w => JsonValue.Create(w)), .. orNull ? new JsonNode?[] { null } : []]) };

    /// <summary>Bounds of a number say nothing of null, and need no exception for it.</summary>
    private static void Bound(JsonObject schema, BoundsAttribute bounds)
    {
        schema["minimum"] = bounds.Low;
        if (double.IsFinite(bounds.High))
        {
            schema["maximum"] = bounds.High;
        }
    }

    private static bool IsNullable(JsonObject schema) => schema["type"] is JsonArray types && types.Any(t => (string?)t == "null");

    private static JsonObject NeverNull(JsonObject schema)
    {
        if (schema["type"] is JsonArray types)
        {
            schema["type"] = types.Select(t => (string?)t).First(t => t != "null");
        }

        return schema;
    }
}
