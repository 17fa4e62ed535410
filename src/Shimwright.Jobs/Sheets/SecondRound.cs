using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Sheets;

/// <summary>The job that follows a re-check that failed: it starts from what the re-check left, and the first check is its past.</summary>
public static class SecondRound
{
    /// <summary>Starts a second round.</summary>
    /// <param name="sheet">The job whose re-check failed.</param>
    /// <returns>What the new job starts from and the facts that are known already, or what is wrong.</returns>
    public static SetupReading Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var file = (JsonObject)JsonNode.Parse(JobSheetFile.Write(sheet))!;
        var past = (JsonObject)file["check"]!;
        JsonObject again = file["recheck"] as JsonObject ?? [];
        file.Remove("recheck");
        var check = (JsonObject)past.DeepClone();
        check["clock"] = ClockOf(sheet);
        check["temperatureC"] = sheet.RecheckTemperature;
        check["readings"] = new JsonArray([.. ReadingsOf(again), .. Moved(sheet, past)]);
        if (sheet.Engine.Valvetrain.HasShims)
        {
            check["fitted"] = new JsonArray([.. sheet.Engine.Valves.Select(v => LeftAt(sheet, v.Id)).OfType<ThicknessFound>()
                .Select(f => new JsonObject { ["valve"] = f.Valve, ["thickness"] = f.Thickness, ["by"] = f.By })]);
        }

        past["changed"] = again["changed"]?.DeepClone() ?? new JsonArray();
        file["history"] = new JsonArray([.. (file["history"] as JsonArray ?? []).Select(h => h!.DeepClone()), past.DeepClone()]);
        file["check"] = check;
        SetupReading reading = JobSetup.FromFile(Encoding.UTF8.GetBytes(file.ToJsonString()));
        return reading.Setup is null ? reading : reading with { Facts = [.. reading.Facts, .. Carried(sheet)] };
    }

    /// <summary>Without usual wear on the card there is no telling what running did: then the round counts as made at the clock of the check.</summary>
    private static double ClockOf(JobSheet sheet) =>
        sheet.Setup.Card.Wear is not null && sheet.Closing is { } closing ? closing.Clock : sheet.Check.Clock;

    private static IEnumerable<JsonNode> ReadingsOf(JsonObject part) => (part["readings"] as JsonArray ?? []).Select(r => r!.DeepClone());

    /// <summary>
    /// A valve that was neither changed nor felt again stands as it was read: its readings go over to the new check, so that
    /// they count once. Not where the temperature is another one and moves the gaps; then it is felt again.
    /// </summary>
    private static JsonNode[] Moved(JobSheet sheet, JsonObject past)
    {
        if (sheet.RecheckTemperature != sheet.Check.TemperatureC && sheet.Engine.ClearancePerDegree is not (null or 0))
        {
            return [];
        }

        HashSet<string> untouched = [.. sheet.Engine.Valves.Select(v => v.Id)
            .Where(v => sheet.ChangeAt(v) is null && !sheet.Readings(SheetPart.Recheck, v).Any())];
        JsonNode[] moved = [.. ((JsonArray)past["readings"]!).Where(r => untouched.Contains((string)r!["valve"]!)).Select(r => r!)];
        foreach (JsonNode reading in moved)
        {
            ((JsonArray)past["readings"]!).Remove(reading);
        }

        return moved;
    }

    private static ThicknessFound? LeftAt(JobSheet sheet, string valve) => sheet.ChangeAt(valve) is ShimFitted fitted
        ? new(valve, fitted.To.Thickness, fitted.To.By)
        : sheet.FoundAt(valve);

    private static IEnumerable<JobFact> Carried(JobSheet sheet)
    {
        if (sheet.Newest<LossSuspected>() is { } suspected)
        {
            yield return suspected;
        }

        if (sheet.Engine.Valvetrain.HasShims)
        {
            StockStated stock = JobTerms.Stock(sheet);
            yield return stock with { Drawer = Drawer(sheet, stock.Drawer) };
        }
    }

    /// <summary>The drawer after the work: what was taken out of it is gone, what came out of the engine and did not go back lies in it.</summary>
    private static List<ShimsAtHand> Drawer(JobSheet sheet, IReadOnlyList<ShimsAtHand> before)
    {
        List<ShimsAtHand> drawer = [.. before];
        Dictionary<string, FittedRow?> planned = sheet.Plan?.Changes.ToDictionary(c => c.Valve, c => c.To) ?? [];
        HashSet<string> handedOn = [.. planned.Where(p => sheet.ChangeAt(p.Key) is not null).Select(p => p.Value?.FromValve).OfType<string>()];
        foreach (ShimFitted fitted in sheet.Engine.Valves.Select(v => sheet.ChangeAt(v.Id)).OfType<ShimFitted>())
        {
            FittedRow? plan = planned.GetValueOrDefault(fitted.Valve);
            if (plan is null or { Source: "drawer" })
            {
                double thickness = plan?.Thickness ?? fitted.To.Thickness;
                string by = plan?.By ?? fitted.To.By;
                int line = drawer.FindIndex(d => d.Count > 0 && d.By == by && Math.Abs(d.Thickness - thickness) < SameShim);
                if (line >= 0)
                {
                    drawer[line] = drawer[line] with { Count = drawer[line].Count - 1 };
                }
            }

            if (!handedOn.Contains(fitted.Valve))
            {
                drawer.Add(new(fitted.From.Thickness, fitted.From.By, 1));
            }
        }

        return [.. drawer.Where(d => d.Count > 0).GroupBy(d => (d.Thickness, d.By)).Select(g => new ShimsAtHand(g.Key.Thickness, g.Key.By, g.Sum(d => d.Count)))];
    }

    /// <summary>Thicknesses that are one and the same, mm.</summary>
    private const double SameShim = 1e-6;
}
