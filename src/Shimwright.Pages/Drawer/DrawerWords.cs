using System.Globalization;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Drawer;

/// <summary>Words of the drawer.</summary>
internal static class DrawerWords
{
    public static IReadOnlyList<(string Value, string Title, string? Hint)> Instruments { get; } =
    [
        ("marked", "Mark on the shim", null),
        ("calliper", "Calliper", null),
        ("micrometer", "Micrometer", null),
    ];

    public static string AddressOf(ShimSize size) =>
        string.Create(CultureInfo.InvariantCulture, $"/drawer/shim?diameter={size.Diameter}&thickness={size.Thickness}&by={size.By}");

    public static string NameOf(ShimSize size, LengthStyle lengths) => $"{lengths.Shim(size.ThicknessMm)} {lengths.UnitName}, {size.By}";

    public static string Diameter(int micrometres, LengthStyle lengths) => $"{lengths.Field(micrometres / 1000.0)}{(lengths.Field(micrometres / 1000.0).EndsWith("mm", StringComparison.Ordinal) ? "" : " " + lengths.UnitName)} diameter";

    /// <summary>How a thickness was measured, in a word.</summary>
    public static string By(string by) => by == "marked" ? "mark" : by;

    /// <summary>The label of a price.</summary>
    public static string PriceLabel(string currency) => currency.Length > 0 ? $"Unit price, {currency}" : "Unit price";

    public static string Price(double? price, string currency) =>
        price is { } p ? p.ToString("0.00", CultureInfo.InvariantCulture) + (currency.Length > 0 ? "\u00a0" + currency : "") : "";

    public static string Reason(DrawerMove move) => move.Reason switch
    {
        ShimReason.Bought => "added",
        ShimReason.Stocktake => "counted",
        ShimReason.Taken => "used on a job",
        ShimReason.CameOut => "came out on a job",
        ShimReason.Measured => move.Change < 0 ? "measured, moved to its own size" : "measured, was under its mark",
        _ when move.Undoes is null && move.Job is null => "job reopened",
        _ => move.Undoes is { } entry ? string.Create(CultureInfo.InvariantCulture, $"entry {entry} undone") : "job reopened",
    };

    public static string Change(int change) => change.ToString("+0;\u22120;0", CultureInfo.InvariantCulture);
}
