using System.Globalization;
using Shimwright.Domain.Drawer;

namespace Shimwright.Jobs.Tables;

/// <summary>What to order as a file of lines and columns.</summary>
public static class OrderTable
{
    /// <summary>The columns.</summary>
    public static IReadOnlyList<ListColumn<(double Diameter, OrderLine Line)>> Columns { get; } =
    [
        new("diameter_mm", "diameter", o => o.Diameter),
        new("thickness_mm", "thickness", o => Fixed(o.Line.Size)),
        new("wanted", "how many will be wanted, on average", o => Fixed(o.Line.Wanted.Mean)),
        new("free", "how many are free in the drawer", o => o.Line.OnHand),
        new("level", "stock to keep", o => o.Line.Level),
        new("order", "how many to order", o => o.Line.ToOrder),
        new("price", "unit price; blank where none can be bought", o => o.Line.Price is { } price ? Math.Round(price, 2) : null),
        new("cost", "what the order costs", o => Math.Round(o.Line.Cost, 2)),
        new("covered_now", "chance of having enough now, 0 to 1", o => Fixed(o.Line.CoveredNow)),
        new("covered_then", "chance of having enough after the order, 0 to 1", o => Fixed(o.Line.CoveredThen)),
    ];

    private static string Fixed(double value) => value.ToString("0.000", CultureInfo.InvariantCulture);
}
