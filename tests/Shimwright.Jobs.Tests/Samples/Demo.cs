using System.Text.Json.Nodes;

namespace Shimwright.Jobs.Tests.Samples;

/// <summary>The job files of the demo folder.</summary>
internal static class Demo
{
    public static IReadOnlyList<string> Files { get; } =
        [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "demo"), "*.json").Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)];

    public static string Text(string file) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo", file));

    /// <summary>A demo job with a re-check: its own, or one in which the first valve was changed and all were read as before.</summary>
    public static string WithRecheck(string file)
    {
        JsonObject job = JsonNode.Parse(Text(file))!.AsObject();
        if (!job.ContainsKey("recheck"))
        {
            JsonNode check = job["check"]!;
            JsonNode? fitted = check["fitted"]?[0];
            JsonObject changed = new() { ["valve"] = job["engine"]!["valves"]![0]!["id"]!.DeepClone() };
            if (fitted is null)
            {
                changed["turns"] = 0.05;
            }
            else
            {
                changed["from"] = new JsonObject { ["thickness"] = fitted["thickness"]!.DeepClone(), ["by"] = fitted["by"]!.DeepClone() };
                changed["to"] = new JsonObject { ["thickness"] = 2.5, ["by"] = "marked" };
            }

            job["recheck"] = new JsonObject { ["changed"] = new JsonArray(changed), ["readings"] = check["readings"]!.DeepClone() };
            if (check["camshafts"] is { } camshafts)
            {
                job["recheck"]!["camshafts"] = camshafts.DeepClone();
            }
        }

        return job.ToJsonString();
    }

    /// <summary>Whether a demo job has past checks.</summary>
    public static bool HasPast(string file) => JsonNode.Parse(Text(file))!["history"] is JsonArray { Count: > 0 };

    public static JobDraft Draft(string file) => new(Text(file));
}
