using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace Shimwright.Jobs.Tests.Samples;

/// <summary>The schema of the job file, read by a validator that knows nothing of the reader.</summary>
internal static class JobSchema
{
    private static readonly JsonSchema Compiled = JsonSchema.FromText(JobFile.Schema());

    public static JsonObject Root => JsonNode.Parse(JobFile.Schema())!.AsObject();

    public static bool Allows(JobDraft draft) => Allows(draft.Text);

    public static bool Allows(string text)
    {
        using JsonDocument document = JsonDocument.Parse(text);
        return Compiled.Evaluate(document.RootElement).IsValid;
    }

    /// <summary>The part of the schema that speaks of the value at a path of a draft.</summary>
    public static JsonObject At(JobDraft draft, string path)
    {
        JsonNode node = draft.At(path);
        List<JsonNode> line = [node];
        while (node.Parent is { } parent)
        {
            line.Add(parent);
            node = parent;
        }

        line.Reverse();
        JsonObject schema = Root;
        for (int i = 1; i < line.Count; i++)
        {
            schema = line[i - 1] is JsonArray
                ? Variant(schema, "array")["items"]!.AsObject()
                : Member(Variant(schema, "object"), line[i].GetPropertyName());
        }

        return schema;
    }

    /// <summary>The limits of a number, or null where the schema allows none.</summary>
    public static JsonObject? NumberOf(JsonObject schema) =>
        new[] { schema }.Concat(schema["anyOf"]?.AsArray().Select(a => a!.AsObject()) ?? [])
            .FirstOrDefault(s => s["type"]?.GetValue<string>() is "number" or "integer");

    private static JsonObject Variant(JsonObject schema, string type) =>
        schema["anyOf"]?.AsArray().Select(a => a!.AsObject()).First(a => a["type"]!.GetValue<string>() == type) ?? schema;

    private static JsonObject Member(JsonObject schema, string name) =>
        (schema["properties"]?[name] ?? schema["additionalProperties"]!).AsObject();
}
