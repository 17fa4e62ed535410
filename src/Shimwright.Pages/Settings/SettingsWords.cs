using System.Globalization;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Settings;

/// <summary>What is set, in a few words for the line of each section.</summary>
internal static class SettingsWords
{
    public static string Display(BenchSettings settings) => string.Join(", ",
    [
        settings.Unit, settings.Distance, settings.Theme switch { "system" => "theme of the device", "sun" => "theme for bright sun", _ => settings.Theme + " theme" },
        .. settings.Currency.Length > 0 ? [settings.Currency] : Array.Empty<string>(),
    ]);

    public static string Blades(BenchSettings settings, LengthStyle lengths) => settings.Blades.Count == 0
        ? "none"
        : string.Create(CultureInfo.InvariantCulture, $"{settings.Blades.Count}, {lengths.Shim(settings.Blades.Min())} to {lengths.Shim(settings.Blades.Max())} {lengths.UnitName}");

    public static string Work(BenchSettings settings) => $"camshaft {Minutes(settings.Lift)}, valve {Minutes(settings.Swap)}, rework {Minutes(settings.Redo)}";

    public static string Readings(BenchSettings settings) =>
        $"blade {Minutes(settings.Minutes.Blade)}, depth {Minutes(settings.Minutes.Depth)}, dry fit {Minutes(settings.Minutes.DryFit)}";

    public static string Sizes(BenchSettings settings, LengthStyle lengths) => settings.SizesToBuy switch
    {
        [] => "none",
        [var one] => $"{lengths.Shim(one.From)} to {lengths.Shim(one.To)} {lengths.UnitName} in {lengths.Shim(one.Step)} steps",
        var all => $"{all.Count} ranges, {lengths.Shim(all.Min(s => s.From))} to {lengths.Shim(all.Max(s => s.To))} {lengths.UnitName}",
    };

    public static string Feel(BenchSettings settings) => settings.Feel == FeelSettings.Usual ? "default" : "own figures";

    public static string Limits(BenchSettings settings) =>
        $"keep from {Chances.Mark(settings.KeepFloor)}, pass from {Chances.Mark(settings.PassFloor)}, risk {Chances.Mark(settings.Risk)}";

    private static string Minutes(double? minutes) => minutes is { } m ? $"{Times.Number(m)} min" : "not possible";
}
