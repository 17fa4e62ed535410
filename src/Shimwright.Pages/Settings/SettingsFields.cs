using System.Text.RegularExpressions;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Settings;

/// <summary>The fields of the settings: which of them a path belongs to, and how each is labelled.</summary>
internal static partial class SettingsFields
{
    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["Blades"] = "Blades of the set",
        ["Redo"] = "Another round, minutes",
        ["Lift"] = "Lifting a camshaft and back, minutes",
        ["Swap"] = "Changing one valve, minutes",
        ["Disturb"] = "Disturbing a good valve, minutes",
        ["MinutesPerCurrency"] = "Minutes that one unit of money is worth",
        ["TakesBlade"] = "Trying one blade, minutes",
        ["TakesStack"] = "Trying a stack of two, minutes",
        ["TakesBucket"] = "Turning a bucket by hand, minutes",
        ["TakesMicrometer"] = "Measuring a shim with the micrometer, minutes",
        ["TakesDepth"] = "Taking a depth, minutes",
        ["TakesDryFit"] = "Fitting dry and feeling, minutes",
        ["Firm"] = "Won't enter to firm",
        ["Light"] = "Firm to light",
        ["Loose"] = "Light to loose",
        ["Spread"] = "Spread of the feel",
        ["Slip"] = "Share of slips",
        ["Doubt"] = "Doubt about the fingers",
        ["Blade"] = "Doubt of one blade",
        ["Seating"] = "Doubt of seating",
        ["KeepFloor"] = "Least chance with which a valve is left alone",
        ["PassFloor"] = "Least chance with which a valve passes",
        ["Risk"] = "Risk at which the next check is due",
        ["ServiceLevel"] = "How often the drawer should have the size",
        ["Unit"] = "Unit of lengths",
        ["Distance"] = "Unit of distances",
        ["Theme"] = "Light or dark",
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
        ? $"Sizes to buy, row {int.Parse(kit.Groups["k"].Value, System.Globalization.CultureInfo.InvariantCulture) + 1}, {kit.Groups["member"].Value.ToLowerInvariant()}"
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
