using System.Text.Json.Nodes;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Past;

/// <summary>A job's check as a part of the engine's past, and its re-check as a check of its own.</summary>
internal static class PastCheck
{
    /// <summary>The check with what was done after it.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>An entry of "history".</returns>
    public static JsonObject Of(JobSheet sheet)
    {
        JsonObject file = JobSheetFile.Build(sheet);
        var check = (JsonObject)file["check"]!;
        file.Remove("check");
        check.Remove("blades");
        check["changed"] = Take(file["recheck"] as JsonObject, "changed");
        return check;
    }

    /// <summary>The re-check: a check with the shims that were left in.</summary>
    /// <param name="sheet">The job.</param>
    /// <param name="clock">The engine's clock that it counts for.</param>
    /// <returns>An entry of "history" that has nothing changed.</returns>
    public static JsonObject Again(JobSheet sheet, double clock)
    {
        JsonObject file = JobSheetFile.Build(sheet);
        JsonObject check = new() { ["clock"] = clock, ["temperatureC"] = sheet.RecheckTemperature };
        foreach (string name in new[] { "loss", "camshafts" })
        {
            // The sizes that depths rest on are those of the check, whichever round they were taken in.
            if (file["check"]![name] is { } member)
            {
                check[name] = member.DeepClone();
            }
        }

        check["readings"] = Take(file["recheck"] as JsonObject, "readings");
        if (Left(sheet) is { } left)
        {
            check["fitted"] = left;
        }

        return check;
    }

    /// <summary>Whether anything was felt at the re-check.</summary>
    public static bool HasAgain(JobSheet sheet) => sheet.Engine.Valves.Any(v => sheet.LastReading(SheetPart.Recheck, v.Id) is not null);

    /// <summary>
    /// The valves that were neither changed nor felt again and stand as they were read, so that their readings can go over to
    /// a new check. None where the temperature is another one and moves the gaps; then they are felt again.
    /// </summary>
    public static IReadOnlySet<string> Untouched(JobSheet sheet) =>
        sheet.RecheckTemperature != sheet.Check.TemperatureC && sheet.Engine.ClearancePerDegree is not (null or 0)
            ? new HashSet<string>()
            : sheet.Engine.Valves.Select(v => v.Id)
                .Where(v => sheet.ChangeAt(v) is null && sheet.LastReading(SheetPart.Recheck, v) is null).ToHashSet(StringComparer.Ordinal);

    /// <summary>Takes the readings of valves out of a check.</summary>
    /// <param name="check">The check.</param>
    /// <param name="valves">The valves.</param>
    /// <returns>What was taken out.</returns>
    public static IReadOnlyList<JsonNode> TakeReadings(JsonObject check, IReadOnlySet<string> valves)
    {
        var readings = (JsonArray)check["readings"]!;
        JsonNode[] taken = [.. readings.Where(r => valves.Contains((string)r!["valve"]!)).Select(r => r!)];
        foreach (JsonNode reading in taken)
        {
            readings.Remove(reading);
        }

        return taken;
    }

    /// <summary>The thickness that is in at every valve after the work, where it is known; null for screws.</summary>
    private static JsonArray? Left(JobSheet sheet) => sheet.Engine.Valvetrain.HasShims
        ? new JsonArray([.. sheet.Engine.Valves.Select(v => LeftAt(sheet, v)).OfType<JsonNode>()])
        : null;

    private static JsonObject? LeftAt(JobSheet sheet, Valve valve) => sheet.ChangeAt(valve.Id) is ShimFitted fitted
        ? Shim(valve.Id, fitted.To.Thickness, fitted.To.By)
        : sheet.FoundAt(valve.Id) is { } found ? Shim(valve.Id, found.Thickness, found.By) : null;

    private static JsonObject Shim(string valve, double thickness, string by) =>
        new() { ["valve"] = valve, ["thickness"] = thickness, ["by"] = by };

    private static JsonArray Take(JsonObject? part, string name) => part?[name]?.DeepClone() as JsonArray ?? [];
}
