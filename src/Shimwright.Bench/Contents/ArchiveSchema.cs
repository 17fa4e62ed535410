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
            (BenchArchive.Manifest, ArchiveContext.Default.ArchiveManifest),
            (ArchiveKinds.Cards.File, ArchiveKinds.Cards.Row),
            (ArchiveKinds.Engines.File, ArchiveKinds.Engines.Row),
            (ArchiveKinds.Jobs.File, ArchiveKinds.Jobs.Row),
            (ArchiveKinds.Facts.File, ArchiveKinds.Facts.Row),
            (ArchiveKinds.Promises.File, ArchiveKinds.Promises.Row),
            (ArchiveKinds.Ledger.File, ArchiveKinds.Ledger.Row),
            (ArchiveKinds.Settings.File, ArchiveKinds.Settings.Row),
            (ArchiveKinds.Feels.File, ArchiveKinds.Feels.Row),
            (ArchiveKinds.Counts.File, ArchiveKinds.Counts.Row),
            (ArchiveKinds.Pictures.File, ArchiveKinds.Pictures.Row),
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
