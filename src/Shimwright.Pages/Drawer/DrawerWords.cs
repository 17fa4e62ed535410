using System.Globalization;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Drawer;

/// <summary>The drawer in words.</summary>
internal static class DrawerWords
{
    public static IReadOnlyList<(string Value, string Title, string? Hint)> Instruments { get; } =
    [
        ("marked", "By its mark", "What is etched or printed on it"),
        ("calliper", "With a calliper", null),
        ("micrometer", "With a micrometer", null),
    ];

    public static string AddressOf(ShimSize size) =>
        string.Create(CultureInfo.InvariantCulture, $"/drawer/shim?diameter={size.Diameter}&thickness={size.Thickness}&by={size.By}");

    public static string NameOf(ShimSize size, LengthStyle lengths) => $"{lengths.Shim(size.ThicknessMm)} {lengths.UnitName}, {size.By}";

    public static string Diameter(int micrometres, LengthStyle lengths) => $"{lengths.Field(micrometres / 1000.0)}{(lengths.Field(micrometres / 1000.0).EndsWith("mm", StringComparison.Ordinal) ? "" : " " + lengths.UnitName)} across";

    public static string Price(double? price, string currency) =>
        price is { } p ? p.ToString("0.00", CultureInfo.InvariantCulture) + (currency.Length > 0 ? "\u00a0" + currency : "") : "";

    public static string Reason(DrawerMove move) => move.Reason switch
    {
        ShimReason.Bought => "put in",
        ShimReason.Stocktake => "counted",
        ShimReason.Taken => "used on a job",
        ShimReason.CameOut => "came out of a job",
        ShimReason.Measured => move.Change < 0 ? "measured, and kept under its size now" : "measured, known by its mark before",
        _ when move.Undoes is null && move.Job is null => "a job was opened again",
        _ => move.Undoes is { } entry ? string.Create(CultureInfo.InvariantCulture, $"entry {entry} taken back") : "the job was opened again",
    };

    public static string Change(int change) => change.ToString("+0;\u22120;0", CultureInfo.InvariantCulture);
}
