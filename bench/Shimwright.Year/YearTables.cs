using System.Globalization;
using Shimwright.Testing.Shed;

namespace Shimwright.Year;

/// <summary>What the year has shown, as text that can be pasted into a document.</summary>
internal static class YearTables
{
    private static readonly double[] Chances = [0, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95];
    private static readonly double[] Bins = [0, 0.90, 0.95, 0.99, 0.999, 1.01];

    public static void Print(TextWriter to, ShedYear year, HireShed shed, KilledBench bench, (DrawerAudit Audit, DrawerAudit Left) looked)
    {
        int inEngines = shed.Engines.Sum(e => e.Fitted.Length);
        to.WriteLine(Text($"{shed.Engines.Count} engines, {shed.Closed} jobs in {year.Days} days; {bench.Calls} calls, {looked.Audit.Entries} entries in the ledger"));
        to.WriteLine(Text($"killed {bench.Kills} times; {bench.SentAgain} calls had no answer and were sent again, {bench.KeptBefore} of them were kept already"));
        to.WriteLine(Text($"drawer looked at {looked.Audit.Looks} times at work and {looked.Left.Looks} times after a kill, never wrong; {year.Orders.Count} stocktakes found nothing"));
        to.WriteLine(Text($"shims: {shed.Shims} in all, {inEngines} in engines, {shed.PutIn} put in, {shed.Tally.Taken} taken out of the drawer for engines, {shed.Tally.Bought} bought for a job"));
        to.WriteLine(Text($"plans refused {shed.Tally.Refused}, let go or taken back {shed.Tally.LetGo}, jobs opened again {shed.Tally.Reopened}; jobs that bought nothing {year.Served}"));
        IReadOnlyList<OrderOutcome> orders = year.Outcomes();
        LineOutcome[] lines = [.. orders.SelectMany(o => o.Lines)];
        PrintWants(to, orders);
        to.WriteLine();
        to.WriteLine("| sizes and periods | lines | covered as foreseen | covered | standard error | of periods | wanted as foreseen | wanted | scatter to foreseen |");
        to.WriteLine("|---|---|---|---|---|---|---|---|---|");
        Row(to, "all", lines);
        Row(to, "wanted with a chance of 0.10 or more", [.. lines.Where(l => l.Chance >= 0.1)]);
        Row(to, "… nothing too many in the drawer", [.. lines.Where(l => l.Chance >= 0.1 && IsTight(l))]);
        foreach ((double low, double high) in Bins.Zip(Bins.Skip(1)))
        {
            Row(to, Text($"foreseen {low:0.000} to {Math.Min(1, high):0.000}"), [.. lines.Where(l => l.Row.Covered >= low && l.Row.Covered < high)]);
        }
    }

    /// <summary>Where what was wanted and what was foreseen part.</summary>
    private static void PrintWants(TextWriter to, IReadOnlyList<OrderOutcome> orders)
    {
        ShedVisit[] first = [.. orders.SelectMany(o => o.First)];
        WantedShim[] wanted = [.. first.SelectMany(v => v.Wanted)];
        double foreseen = orders.Sum(o => o.First.Sum(v => o.Order.Due[v.Engine]));
        to.WriteLine(Text($"{orders.Count} orders count, with {orders.Sum(o => o.Order.Due.Count)} engines on their lists"));
        to.WriteLine(Text($"of those {first.Length} came: {foreseen:0.0} shims were foreseen for them and {wanted.Length} wanted, {wanted.Count(w => w.HasCompany)} of these under a camshaft that was out for another valve too"));
        to.WriteLine(Text($"wanted of valves found with this chance to be in band or a greater one: {string.Join(", ", Chances.Select(b => Text($"{b:0.00}: {wanted.Count(w => w.InBand >= b)}")))}"));
        to.WriteLine(Text($"did not come in time: {orders.Sum(o => o.Stayed):0.0} shims were foreseen for them"));
        to.WriteLine(Text($"came a second time: {orders.Sum(o => o.Again.Count)}, and wanted {orders.Sum(o => o.Again.Sum(v => v.Wanted.Count))}; came without being on the list: {orders.Sum(o => o.Unforeseen.Count)}, and wanted {orders.Sum(o => o.Unforeseen.Sum(v => v.Wanted.Count))}"));
    }

    /// <summary>Whether one shim fewer would not have been enough: what whole pieces do, and nothing that lay about.</summary>
    private static bool IsTight(LineOutcome line) => line.Stock == 0 || line.Row.Chances.Take(line.Stock).Sum() < ShedYear.ServiceLevel - 1e-12;

    private static void Row(TextWriter to, string name, LineOutcome[] lines)
    {
        if (lines.Length == 0)
        {
            return;
        }

        double foreseen = lines.Average(l => l.Row.Covered);
        double error = Math.Sqrt(lines.Sum(l => l.Row.Covered * (1 - l.Row.Covered))) / lines.Length;
        double[] byPeriod = [.. lines.GroupBy(l => l.Order).Select(g => g.Sum(l => (l.IsCovered ? 1 : 0) - l.Row.Covered))];
        double scatter = lines.Sum(l => (l.Wanted - l.Mean) * (l.Wanted - l.Mean)) / lines.Sum(l => l.Variance);
        to.WriteLine(Text(
            $"| {name} | {lines.Length} | {foreseen:0.0000} | {lines.Average(l => l.IsCovered ? 1.0 : 0):0.0000} | {error:0.0000} | {Math.Sqrt(byPeriod.Sum(d => d * d)) / lines.Length:0.0000} | {lines.Sum(l => l.Mean):0.0} | {lines.Sum(l => l.Wanted)} | {scatter:0.00} |"));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
