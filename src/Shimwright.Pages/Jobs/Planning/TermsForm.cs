using System.Globalization;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Planning;

/// <summary>The shims at hand as they are typed.</summary>
public sealed class StockForm : ActionForm
{
    /// <summary>Whether the shop's drawer is what is at hand.</summary>
    public bool FromShop { get; set; }

    public string? Drawer { get; set; }

    public string? Buy { get; set; }

    public static StockForm Of(StockStated stock, LengthStyle lengths) =>
        new() { FromShop = stock.FromShop, Drawer = stock.FromShop ? "" : StockText.Drawer(stock.Drawer, lengths), Buy = StockText.Buy(stock.Buy, lengths) };

    /// <summary>What was typed, as a fact; null, with problems, where some of it is none.</summary>
    public StockStated? Read(LengthStyle lengths, List<JobProblem> problems)
    {
        if (FromShop && !string.IsNullOrWhiteSpace(Drawer))
        {
            problems.Add(new("shims at hand", "shims were written down and the shop's drawer is ticked too", "clear the lines, or untick the drawer"));
        }

        var stock = new StockStated(StockText.ReadDrawer(Drawer, lengths, problems), StockText.ReadBuy(Buy, lengths, problems), FromShop);
        return problems.Count == 0 ? stock : null;
    }
}

/// <summary>The costs as they are typed; the minutes of each access group in the engine's order.</summary>
public sealed class CostsForm : ActionForm
{
    public string? Redo { get; set; }

    public string? Swap { get; set; }

    public string? Disturb { get; set; }

    public string? PerCurrency { get; set; }

    public string? Horizon { get; set; }

    public List<string?> Access { get; set; } = [];

    public static CostsForm Of(CostsStated costs) => new()
    {
        Redo = Typed(costs.Redo),
        Swap = Typed(costs.Swap),
        Disturb = Typed(costs.Disturb),
        PerCurrency = Typed(costs.MinutesPerCurrency),
        Horizon = Typed(costs.Horizon),
        Access = [.. costs.Access.Values.Select(Typed)],
    };

    /// <summary>What was typed, as a fact; null, with problems, where some of it is none.</summary>
    public CostsStated? Read(IReadOnlyList<string> groups, string clockUnit, List<JobProblem> problems)
    {
        double? redo = TypedNumber.Minutes(Redo, "another round").Note(problems);
        double? swap = TypedNumber.Minutes(Swap, "one valve").Note(problems);
        double? disturb = TypedNumber.Minutes(Disturb, "disturbing a good valve").Note(problems);
        double? perCurrency = TypedNumber.Plain(PerCurrency, "worth").Note(problems);
        double? horizon = TypedNumber.Clock(Horizon, "horizon", clockUnit, needed: false).Note(problems) ?? 0;
        Dictionary<string, double> access = new(StringComparer.Ordinal);
        foreach ((int i, string group) in groups.Index())
        {
            access[group] = TypedNumber.Minutes(Access.ElementAtOrDefault(i), group).Note(problems) ?? 0;
        }

        return problems.Count == 0 ? new CostsStated(redo!.Value, swap!.Value, perCurrency!.Value, horizon.Value, access, disturb!.Value) : null;
    }

    private static string Typed(double number) => number.ToString("0.#########", CultureInfo.InvariantCulture);
}
