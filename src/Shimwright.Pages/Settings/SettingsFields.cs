using System.Text.RegularExpressions;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Settings;

/// <summary>The fields of the settings: which of them a path belongs to, and how each is labelled.</summary>
internal static partial class SettingsFields
{
    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["Blades"] = "Blades of the set",
        ["Redo"] = "Rework round, minutes",
        ["Lift"] = "Camshaft off and on, minutes",
        ["Swap"] = "Change of one valve, minutes",
        ["Disturb"] = "Extra for a good valve, minutes",
        ["MinutesPerCurrency"] = "Minutes per unit of money",
        ["TakesBlade"] = "One blade, minutes",
        ["TakesStack"] = "Stack of two blades, minutes",
        ["TakesBucket"] = "Bucket turned by hand, minutes",
        ["TakesMicrometer"] = "Shim by micrometer, minutes",
        ["TakesDepth"] = "Depth, minutes",
        ["TakesDryFit"] = "Dry fit, minutes",
        ["Firm"] = "Won't enter to firm",
        ["Light"] = "Firm to light",
        ["Loose"] = "Light to loose",
        ["Spread"] = "Scatter of the feel",
        ["Slip"] = "Share of misreadings",
        ["Doubt"] = "Shared uncertainty",
        ["Blade"] = "Blade uncertainty",
        ["Seating"] = "Seating scatter",
        ["KeepFloor"] = "Lowest chance to keep a valve",
        ["PassFloor"] = "Lowest chance to pass a valve",
        ["Risk"] = "Risk limit for the next check",
        ["ServiceLevel"] = "Chance of having each size",
        ["Unit"] = "Length unit",
        ["Distance"] = "Odometer unit",
        ["Theme"] = "Theme",
        ["Currency"] = "Currency",
        ["Zone"] = "Time zone",
    };

    private static readonly Dictionary<string, string> Paths = new(StringComparer.Ordinal)
    {
        ["check.blades"] = "Blades",
        ["costs.redo"] = "Redo",
        ["costs.access.cover"] = "Lift",
        ["costs.swap"] = "Swap",
        ["costs.disturb"] = "Disturb",
        ["costs.minutesPerCurrency"] = "MinutesPerCurrency",
        ["settings.minutes.blade"] = "TakesBlade",
        ["settings.minutes.stack"] = "TakesStack",
        ["settings.minutes.bucket"] = "TakesBucket",
        ["settings.minutes.micrometer"] = "TakesMicrometer",
        ["settings.minutes.depth"] = "TakesDepth",
        ["settings.minutes.dryFit"] = "TakesDryFit",
        ["settings.feel"] = "Firm",
        ["settings.feel.firm"] = "Firm",
        ["settings.feel.light"] = "Light",
        ["settings.feel.loose"] = "Loose",
        ["settings.feel.spread"] = "Spread",
        ["settings.feel.slip"] = "Slip",
        ["settings.feel.doubt"] = "Doubt",
        ["settings.blade"] = "Blade",
        ["settings.seating"] = "Seating",
        ["settings.keepFloor"] = "KeepFloor",
        ["settings.passFloor"] = "PassFloor",
        ["settings.risk"] = "Risk",
        ["settings.serviceLevel"] = "ServiceLevel",
        ["unit"] = "Unit",
        ["distance"] = "Distance",
        ["theme"] = "Theme",
        ["currency"] = "Currency",
        ["timeZone"] = "Zone",
    };

    /// <summary>The field behind a path of the settings.</summary>
    public static string FieldOf(string path, IReadOnlyList<int> kitRows)
    {
        if (KitPath().Match(path) is { Success: true } kit)
        {
            string member = kit.Groups["member"].Value is { Length: > 0 } name ? char.ToUpperInvariant(name[0]) + name[1..] : "From";
            return $"Kits[{kitRows[int.Parse(kit.Groups["k"].Value, System.Globalization.CultureInfo.InvariantCulture)]}].{member}";
        }

        string plain = LastIndex().Replace(path.Replace("$.", "", StringComparison.Ordinal), "");
        return Paths.GetValueOrDefault(plain, plain);
    }

    public static string Label(string field) => KitField().Match(field) is { Success: true } kit
        ? $"Sizes you can buy, row {int.Parse(kit.Groups["k"].Value, System.Globalization.CultureInfo.InvariantCulture) + 1}, {kit.Groups["member"].Value.ToLowerInvariant()}"
        : Labels.GetValueOrDefault(field, field);

    /// <summary>Problems under the labels of their fields.</summary>
    public static IReadOnlyList<JobProblem> Labelled(IEnumerable<JobProblem> problems) => [.. problems.Select(p => p with { Path = Label(p.Path) })];

    [GeneratedRegex(@"^\$\.stock\.buy\[(?<k>\d+)\]\.?(?<member>\w*)$", RegexOptions.CultureInvariant)]
    private static partial Regex KitPath();

    [GeneratedRegex(@"\[\d+\]$", RegexOptions.CultureInvariant)]
    private static partial Regex LastIndex();

    [GeneratedRegex(@"^Kits\[(?<k>\d+)\]\.(?<member>\w+)$", RegexOptions.CultureInvariant)]
    private static partial Regex KitField();
}
