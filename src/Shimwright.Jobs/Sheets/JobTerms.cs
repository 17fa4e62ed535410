using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Sheets;

/// <summary>The shims at hand and the costs that hold for a job: as stated last, else as it was started with.</summary>
public static class JobTerms
{
    /// <summary>The shims that the job may use.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Drawer and shop.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static StockStated Stock(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        StockStated stock = sheet.Newest<StockStated>() ?? new(
            [.. sheet.Setup.Start.Stock.Drawer.Select(d => new ShimsAtHand(d.Thickness.Millimetres, d.Thickness.By.Name, d.Count) { Marked = d.Thickness.Marked })],
            [.. (sheet.Setup.Written.Stock?.Buy ?? []).Select(b => new SizesToBuy(b.From, b.To, b.Step, b.Price ?? 0))]);
        return UsesShop(sheet) ? stock with { Drawer = LiveShop(sheet) ?? stock.Drawer, FromShop = true } : stock;
    }

    /// <summary>Whether the job plans with the shop's drawer and not with shims that were stated for it alone.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Whether it does.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
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
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static CostsStated Costs(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        Job start = sheet.Setup.Start;
        CostsStated stated = sheet.Newest<CostsStated>() ?? new(
            start.Costs.Redo, start.Costs.Swap, start.Costs.MinutesPerCurrency, start.Horizon, start.Costs.Access, start.Costs.Disturb);
        return stated with { Access = Groups(sheet).ToDictionary(g => g, g => stated.Access.GetValueOrDefault(g), StringComparer.Ordinal) };
    }

    /// <summary>The access groups of the engine, in its order.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Their names.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<string> Groups(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return sheet.Engine.AccessGroups;
    }
}
