using System.Globalization;
using System.Text;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Orders;
using Shimwright.Jobs.Sheets;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Alike;

/// <summary>All that can be seen of a bench, as text that shows every digit.</summary>
internal static class Views
{
    public static IReadOnlyList<Func<Twin, Task<string>>> All { get; } =
        [EnginesAsync, OpenAsync, ClosedAsync, SheetsAsync, DrawerAsync, DueAsync, OutlooksAsync, OrdersAsync, MarksAsync, RecordsAsync, FeelAsync, SettingsAsync];

    public static string Text(AddResult result) =>
        $"{result.Outcome}: {string.Join("; ", result.Problems)} {string.Join(", ", result.Unseen.Select(e => e.Number))}";

    public static string Text(DrawerResult result) => $"{result.Outcome}: {string.Join("; ", result.Problems)}";

    public static async Task<string> EnginesAsync(Twin twin)
    {
        var text = new StringBuilder(Invariant($"{await twin.Bench.Engines.CountAsync("e", Cancel)} of e\n"));
        text.AppendLine(Invariant($"{await twin.Bench.Engines.CountRetiredAsync("e", Cancel)} retired of e"));
        foreach (EngineSummary e in (await twin.Bench.Engines.ListAsync(null, 0, 100, Cancel)).Concat(await twin.Bench.Engines.RetiredAsync(null, 0, 100, Cancel)))
        {
            StoredEngine found = (await twin.Bench.Engines.FindAsync(e.Id, Cancel))!;
            text.AppendLine(Invariant($"{e.Id} {e.Name} ({e.CardTitle}) {e.OpenJobs} open, {e.LastClock:R}; {found.Version}.{found.CardVersion} of {found.SharedBy}; {found.Notes}; {found.Papers}; {found.Details.ToJson()}; retired {found.RetiredAt:O}"));
            text.AppendLine(found.Card.Json);
        }

        return text.ToString();
    }

    public static async Task<string> OpenAsync(Twin twin) =>
        Invariant($"{await twin.Bench.Jobs.CountOpenAsync(Cancel)} open\n") + string.Join('\n', await twin.Bench.Jobs.OpenAsync(1, 20, Cancel));

    public static async Task<string> ClosedAsync(Twin twin) => string.Join('\n', await twin.Bench.Jobs.ClosedAsync(0, 100, Cancel));

    public static async Task<string> SheetsAsync(Twin twin)
    {
        var text = new StringBuilder();
        foreach (Guid id in twin.Jobs.TakeLast(3))
        {
            StoredJob job = (await twin.Bench.Jobs.FindAsync(id, Cancel))!;
            text.AppendLine(job.Summary.ToString()).AppendLine(job.Record?.ToJson());
            text.AppendLine(Invariant($"{job.Number} {job.Follows is null}"));
            text.AppendLine(job.Sheet.Shop is { } shop ? string.Join(", ", shop) : "no drawer");
            text.AppendLine(Encoding.UTF8.GetString(JobSheetFile.Write(job.Sheet)));
            text.AppendJoin('\n', job.Sheet.Entries.Select(e => $"{e.Number} {e.Action} {e.Device} {e.At:O} {e.Fact.GetType().Name}")).AppendLine();
        }

        return text.ToString();
    }

    public static async Task<string> DrawerAsync(Twin twin)
    {
        var text = new StringBuilder();
        foreach (ShimLot lot in await twin.Bench.Drawer.LotsAsync(Cancel))
        {
            text.AppendLine(lot.ToString()).AppendJoin('\n', await twin.Bench.Drawer.HistoryAsync(lot.Size, Cancel)).AppendLine();
        }

        return text.ToString();
    }

    /// <summary>What is due, as the list has it: whatever was worked out before it, and nothing more.</summary>
    public static async Task<string> DueAsync(Twin twin) =>
        string.Join('\n', (await twin.Bench.Due.ListAsync(null, 0, 100, Cancel)).Select(e => $"{e.Id} {e.Name} {Text(e.Forecast)}"));

    public static async Task<string> OutlooksAsync(Twin twin)
    {
        var text = new StringBuilder();
        foreach (EngineSummary engine in await twin.Bench.Engines.ListAsync(null, 0, 100, Cancel))
        {
            StoredOutlook? outlook = await twin.Bench.Due.OutlookAsync(engine.Id, Cancel);
            text.AppendLine(Invariant($"{engine.Name} {Text(await twin.Bench.Due.FindAsync(engine.Id, Cancel))} {outlook?.IsPooled} {outlook?.Outlook.Checks}"));
            text.AppendLine(outlook?.Usual.RateOf(Domain.Engines.ValveSide.Intake).ToString());
            text.AppendLine(Invariant($"{await twin.Bench.Due.StatedUsageAsync(engine.Id, Cancel)} ")).AppendJoin(", ", (await twin.Bench.Due.PastAsync(engine.Id, Cancel)).Select(p => $"{p.Id} {p.Origin} {p.Follows}")).AppendLine();
        }

        return text.ToString();
    }

    public static async Task<string> OrdersAsync(Twin twin)
    {
        FleetOrders orders = await twin.Bench.Orders.ListAsync(TimeSpan.FromDays(400), 0.95, Cancel);
        var text = new StringBuilder(Invariant($"{orders.From:O} {orders.Until:O} {orders.Later} later, {orders.WithoutShims} without, {orders.Cost:R}\n"));
        text.AppendJoin('\n', orders.Counted).AppendLine().AppendJoin('\n', orders.NotCounted).AppendLine();
        foreach (DiameterOrders diameter in orders.Diameters)
        {
            text.AppendLine(Invariant($"{diameter.Diameter} {diameter.Engines} {diameter.Demand.Wanted:R}"));
            text.AppendJoin('\n', diameter.Orders.Lines.Select(l => l.ToString())).AppendLine();
        }

        return text.ToString();
    }

    public static async Task<string> MarksAsync(Twin twin) => string.Join('\n', await twin.Bench.Marks.ListAsync(Cancel));

    public static async Task<string> RecordsAsync(Twin twin) =>
        string.Join('\n', (await twin.Bench.Due.RecordsAsync(50, Cancel)).Select(r => $"{r.IsSecondRound} {r.Record.ToJson()}"));

    public static async Task<string> FeelAsync(Twin twin) =>
        string.Join('\n', (await twin.Bench.Feel.ListAsync(Cancel)).Select(f => Invariant($"{f.Id} {f.Book.Name} {f.Book.Last} {f.Book.Trials.Count} {f.Book.Used}")));

    public static async Task<string> SettingsAsync(Twin twin)
    {
        var now = await twin.Bench.Settings.CurrentAsync(Cancel);
        return Invariant($"{now.Version} {now.Settings.ToJson()}");
    }

    private static string Text(KeptForecast? f) => f is null ? "none"
        : Invariant($"{f.Checks} {f.Clock:R} {f.CheckBy:R} {f.CountsKilometres} {f.Last.Clock:R} {f.Last.At:O} {f.Usage.PerWeek:R} {f.Usage.Source} {f.DueAt:O} {f.Risk:R} ")
            + string.Join(' ', f.Curve.Select(p => Invariant($"{p.Clock:R}:{p.Risk:R}")));

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
