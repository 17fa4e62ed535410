using Shimwright.Bench.Drawer;
using Shimwright.Bench.Marks;
using Shimwright.Domain.Drawer;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Tables;
using Shimwright.Pages.Drawer;

namespace Shimwright.Pages.Files;

/// <summary>The drawer: what lies in it, how it came to be so, what to order, and marks against the micrometer.</summary>
internal static class ShimLists
{
    public static BenchList Drawer { get; } = BenchList.Of<DrawerLine>(
        "The drawer, a row per size", "/drawer/drawer.csv", DrawerTable.Columns, async ask => DrawerLines.Of(await ask.Bench.Drawer.LotsAsync(ask.Cancel)));

    public static BenchList Ledger { get; } = BenchList.Of<LedgerEntry>("The drawer's ledger, every entry in order", "/drawer/ledger.csv",
    [
        new("entry", "its number", e => e.Number),
        new("at", "when, UTC", e => e.At),
        new("diameter_mm", "diameter", e => e.Size.DiameterMm),
        new("thickness_mm", "thickness", e => e.Size.ThicknessMm),
        new("by", "how the thickness was found: marked, calliper or micrometer", e => e.Size.By),
        new("change", "by how many the count changed", e => e.Change),
        new("reason", "bought, count, fitted, came out, undone or measured", e => ReasonOf(e.Reason)),
        new("job_id", "the job that did it", e => e.Job),
        new("undoes", "the entry that it takes back", e => e.Undoes),
        new("place", "compartment, where it was named", e => e.Place),
        new("price", "unit price, where it was named", e => e.Price),
        new("device", "the device or person that saved it", e => e.Device),
    ],
    async ask => await ask.Bench.Drawer.EntriesAsync(0, null, ask.Cancel));

    public static BenchList Orders { get; } = BenchList.Asked<(double Diameter, OrderLine Line)>("What to order, a row per size", "/drawer/orders.csv", OrderTable.Columns, async ask =>
    {
        List<JobProblem> problems = [];
        OrderQuery query = OrderQuery.Read(ask.Value("days"), ask.Value("level"), problems);
        return problems.Count > 0 ? (null, problems) : (OrderLines.Of(await ask.Bench.Orders.ListAsync(query.Horizon, query.Level, ask.Cancel)), problems);
    });

    public static BenchList Marks { get; } = BenchList.Of<JobMark>("Marks against the micrometer, newest first", "/drawer/marks.csv",
    [
        new("at", "when, UTC", m => m.At),
        new("engine", "engine; blank for a shim in the drawer", m => m.Job is null ? null : m.Engine),
        new("job_id", "the job", m => m.Job),
        new("valve", "valve", m => m.Job is null ? null : m.Shim.Valve),
        new("marked_mm", "what the mark says", m => m.Shim.Marked),
        new("measured_mm", "what the micrometer says", m => m.Shim.Measured),
        new("difference_mm", "measured less marked", m => m.Shim.Difference),
        new("counted", "no: too far apart to be one shim", m => m.Shim.IsOne),
    ],
    async ask => await ask.Bench.Marks.ListAsync(ask.Cancel));

    private static string ReasonOf(ShimReason reason) => reason switch
    {
        ShimReason.Bought => "bought",
        ShimReason.Stocktake => "count",
        ShimReason.Taken => "fitted",
        ShimReason.CameOut => "came out",
        ShimReason.Undone => "undone",
        _ => "measured",
    };
}
