using System.Globalization;
using Shimwright.Bench.Orders;
using Shimwright.Domain.Drawer;

namespace Shimwright.Pages.Drawer;

/// <summary>What will be wanted, in words.</summary>
internal static class OrderWords
{
    /// <summary>A size of which fewer than this are wanted on average is not shown unless it is to be ordered.</summary>
    public const double LeastShown = 0.02;

    public static IReadOnlyList<OrderLine> Shown(OrderList orders) => [.. orders.Lines.Where(l => l.Level > 0 || l.Wanted.Mean >= LeastShown)];

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

    /// <summary>The law for somebody who does not see its picture.</summary>
    public static string Law(CountDistribution law) => string.Join(", ", law.Chances.Index().Where(c => c.Item >= 0.005).Take(12)
        .Select(c => $"{c.Index}: {Percent(c.Item)}"));

    public static string Money(double amount, string currency) => amount.ToString("0.00;\u22120.00;0.00", CultureInfo.InvariantCulture) + (currency.Length > 0 ? "\u00a0" + currency : "");

    public static (string Title, string Next) Reason(NotCountedReason reason) => reason switch
    {
        NotCountedReason.NotChecked => ("Not checked yet", "Once a job on it is closed there is something to foresee."),
        NotCountedReason.NoWear => ("The card does not say what wear is usual", "Put the maker's interval on the card."),
        NotCountedReason.NoUsage => ("Nobody has said how much it is used", "Say so on the page of its wear, and there is a day."),
        NotCountedReason.NoDiameter => ("The card names no shim diameter", "Put the diameter of its shims on the card."),
        NotCountedReason.NoShims => ("Nobody has said which shims are in it", "They are written down in a job, on the page Shims."),
        _ => ("Being worked out anew", "Look in a little later."),
    };

    /// <summary>Where the reason can be dealt with.</summary>
    public static string AddressOf(NotCountedEngine engine) => engine.Reason switch
    {
        NotCountedReason.NoWear or NotCountedReason.NoDiameter => $"/engines/{engine.Id}/card",
        NotCountedReason.NoUsage or NotCountedReason.NotReady => $"/engines/{engine.Id}/wear",
        _ => $"/engines/{engine.Id}",
    };
}
