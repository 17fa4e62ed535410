using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization.Metadata;

namespace Shimwright.Bench.Contents;

/// <summary>The archive's JSON Schema: one definition for the manifest, and one for a line of each file.</summary>
public static class ArchiveSchema
{
    private const string Draft = "https://json-schema.org/draft/2020-12/schema";

    private static readonly JsonSchemaExporterOptions Options = new() { TreatNullObliviousAsNonNullable = true };

    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true, NewLine = "\n" };

    /// <summary>The schema as text.</summary>
    /// <returns>JSON.</returns>
    public static string Text()
    {
        JsonObject definitions = [];
        (string Name, JsonTypeInfo Type)[] lines =
        [
            ("manifest.json", ArchiveContext.Default.ArchiveManifest),
            ("cards.jsonl", ArchiveContext.Default.KeptCard),
            ("engines.jsonl", ArchiveContext.Default.KeptEngine),
            ("jobs.jsonl", ArchiveContext.Default.KeptJob),
            ("facts.jsonl", ArchiveContext.Default.KeptFact),
            ("promises.jsonl", ArchiveContext.Default.ArchivePromise),
            ("ledger.jsonl", ArchiveContext.Default.LedgerEntry),
            ("settings.jsonl", ArchiveContext.Default.KeptSettings),
            ("feels.jsonl", ArchiveContext.Default.KeptFeel),
        ];
        foreach ((string name, JsonTypeInfo type) in lines)
        {
            definitions[name] = type.GetJsonSchemaAsNode(Options);
        }

        return new JsonObject
        {
            ["$schema"] = Draft,
            ["title"] = "A Shimwright bench as an archive",
            ["description"] = "A zip with manifest.json and a file of JSON lines for every kind of row. Every line of a file is of the definition of that name.",
            ["$defs"] = definitions,
        }.ToJsonString(Indented) + "\n";
    }
}
