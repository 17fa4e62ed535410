using System.Globalization;
using Shimwright.Bench.Orders;
using Shimwright.Domain.Drawer;

namespace Shimwright.Pages.Drawer;

/// <summary>Words of the orders.</summary>
internal static class OrderWords
{
    /// <summary>A size of which fewer than this are wanted on average is not shown unless it is to be ordered.</summary>
    public const double LeastShown = 0.02;

    public static IReadOnlyList<OrderLine> Shown(OrderList orders) => [.. orders.Lines.Where(l => l.Level > 0 || l.Wanted.Mean >= LeastShown)];

    /// <summary>What to do about a size.</summary>
    public static string Order(OrderLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return line.ToOrder > 0 ? $"order {line.ToOrder}" : line.Missing > 0 ? $"{line.Missing} missing" : "enough";
    }

    public static string Mean(double mean) => mean < 0.05 ? "under 0.1" : mean.ToString(mean < 9.95 ? "0.0" : "0", CultureInfo.InvariantCulture);

    public static string Percent(double chance) => chance switch
    {
        > 0.995 and < 1 => "over 99 %",
        < 0.005 and > 0 => "under 1 %",
        _ => (chance * 100).ToString("0", CultureInfo.InvariantCulture) + " %",
    };

    /// <summary>The counts between which the true one lies four times out of five.</summary>
    public static string Likely(CountDistribution law)
    {
        (int low, int high) = (law.Covering(0.1), law.Covering(0.9));
        return low == high ? low.ToString(CultureInfo.InvariantCulture) : $"{low} to {high}";
    }

    /// <summary>The law for a screen reader.</summary>
    public static string Law(CountDistribution law) => string.Join(", ", law.Chances.Index().Where(c => c.Item >= 0.005).Take(12)
        .Select(c => $"{c.Index}: {Percent(c.Item)}"));

    public static string Money(double amount, string currency) => amount.ToString("0.00;\u22120.00;0.00", CultureInfo.InvariantCulture) + (currency.Length > 0 ? "\u00a0" + currency : "");

    public static (string Title, string Next) Reason(NotCountedReason reason) => reason switch
    {
        NotCountedReason.NotChecked => ("Not checked yet", "Close a job on it first."),
        NotCountedReason.NoWear => ("Maker's interval not set", "Put it on the card."),
        NotCountedReason.NoUsage => ("Usage not set", "Enter usage to get a date."),
        NotCountedReason.NoDiameter => ("Shim diameter not set", "Put it on the card."),
        NotCountedReason.NoShims => ("Shims not entered", "Enter them in a job, on its Shims page."),
        _ => ("Being worked out again", "Reload the page in a minute."),
    };

    /// <summary>Where the reason can be dealt with.</summary>
    public static string AddressOf(NotCountedEngine engine) => engine.Reason switch
    {
        NotCountedReason.NoWear or NotCountedReason.NoDiameter => $"/engines/{engine.Id}/card",
        NotCountedReason.NoUsage or NotCountedReason.NotReady => $"/engines/{engine.Id}/wear",
        _ => $"/engines/{engine.Id}",
    };
}
