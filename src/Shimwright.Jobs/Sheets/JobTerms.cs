using System.Text.Json.Nodes;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Sheets;

/// <summary>The shims at hand and the costs that hold for a job: as stated last, else as it was started with.</summary>
public static class JobTerms
{
    /// <summary>The shims that the job may use.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Drawer and shop.</returns>
    public static StockStated Stock(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        StockStated stock = sheet.Newest<StockStated>() ?? new(
            [.. sheet.Setup.Start.Stock.Drawer.Select(d => new ShimsAtHand(d.Thickness.Millimetres, d.Thickness.By.Name, d.Count))],
            [.. Ranges(sheet.Setup.NewFile()["stock"]?["buy"])]);
        return UsesShop(sheet) ? stock with { Drawer = LiveShop(sheet) ?? stock.Drawer, FromShop = true } : stock;
    }

    /// <summary>Whether the job plans with the shop's drawer and not with shims that were stated for it alone.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Whether it does.</returns>
    public static bool UsesShop(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return sheet.Engine.Valvetrain.HasShims
            && (sheet.Newest<StockStated>()?.FromShop ?? (sheet.Shop is not null && sheet.Setup.Start.Stock.Drawer.Count == 0));
    }

    /// <summary>
    /// The shop's drawer as it is now, where the job's figures depend on it; null where they do not. Accepting a plan writes down what
    /// the drawer had then, and from there on the figures rest on that.
    /// </summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The shims, or null.</returns>
    public static IReadOnlyList<ShimsAtHand>? LiveShop(JobSheet sheet) => UsesShop(sheet) && sheet.Plan is null ? sheet.Shop ?? [] : null;

    /// <summary>What work and shims cost on the job, with a line for every access group of the engine.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The costs.</returns>
    public static CostsStated Costs(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var start = sheet.Setup.Start.Costs;
        CostsStated stated = sheet.Newest<CostsStated>() ?? new(
            start.Redo, start.Swap, start.MinutesPerCurrency, Number(sheet.Setup.NewFile()["costs"]?["horizon"], Measure.Plain) ?? 0, start.Access);
        return stated with { Access = Groups(sheet).ToDictionary(g => g, g => stated.Access.GetValueOrDefault(g), StringComparer.Ordinal) };
    }

    /// <summary>The access groups of the engine, in its order.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Their names.</returns>
    public static IReadOnlyList<string> Groups(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return [.. sheet.Engine.Valves.Select(v => v.Access).Distinct(StringComparer.Ordinal)];
    }

    private static IEnumerable<SizesToBuy> Ranges(JsonNode? buy) => (buy is JsonArray list ? [.. list] : new[] { buy })
        .OfType<JsonObject>()
        .Select(r => new SizesToBuy(
            Number(r["from"], Measure.Length)!.Value, Number(r["to"], Measure.Length)!.Value, Number(r["step"], Measure.Length)!.Value, Number(r["price"], Measure.Plain) ?? 0));

    /// <summary>A number of a file that was read without a problem: bare, or a text with its unit.</summary>
    private static double? Number(JsonNode? node, Measure measure) => node switch
    {
        null => null,
        JsonValue value when value.TryGetValue(out string? text) => MeasuredText.Read(text, measure),
        _ => node.GetValue<double>(),
    };
}
