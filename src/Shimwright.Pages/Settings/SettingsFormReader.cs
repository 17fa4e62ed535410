using Shimwright.Bench.Settings;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Settings;

/// <summary>Puts settings into the fields of their form and reads them back, in the bench's unit.</summary>
internal sealed class SettingsFormReader(LengthStyle lengths)
{
    private readonly List<JobProblem> _problems = [];

    /// <summary>The settings in their fields.</summary>
    public static SettingsForm Fill(StoredSettings stored, LengthStyle lengths)
    {
        BenchSettings s = stored.Settings;
        return new()
        {
            Version = stored.Version,
            // A unit stands right behind its number, so that a space is always between two blades.
            Blades = string.Join("  ", s.Blades.Select(b => lengths.Field(b).Replace(" ", "", StringComparison.Ordinal))),
            Redo = Times.Exact(s.Redo),
            Lift = Times.Exact(s.Lift),
            Swap = Times.Exact(s.Swap),
            Disturb = Times.Exact(s.Disturb),
            MinutesPerCurrency = Times.Exact(s.MinutesPerCurrency),
            TakesBlade = Minutes(s.Minutes.Blade),
            TakesStack = Minutes(s.Minutes.Stack),
            TakesBucket = Minutes(s.Minutes.Bucket),
            TakesMicrometer = Minutes(s.Minutes.Micrometer),
            TakesDepth = Minutes(s.Minutes.Depth),
            TakesDryFit = Minutes(s.Minutes.DryFit),
            Kits = [.. s.SizesToBuy.Select(k => new KitFields { From = lengths.Field(k.From), To = lengths.Field(k.To), Step = lengths.Field(k.Step), Price = Times.Exact(k.Price) })],
            Firm = lengths.Field(s.Feel.Firm),
            Light = lengths.Field(s.Feel.Light),
            Loose = lengths.Field(s.Feel.Loose),
            Spread = lengths.Field(s.Feel.Spread),
            Slip = Times.Exact(s.Feel.Slip),
            Doubt = lengths.Field(s.Feel.Doubt),
            Blade = lengths.Field(s.Blade),
            Seating = lengths.Field(s.Seating),
            KeepFloor = Times.Exact(s.KeepFloor),
            PassFloor = Times.Exact(s.PassFloor),
            Risk = Times.Exact(s.Risk),
            ServiceLevel = Times.Exact(s.ServiceLevel),
        };
    }

    /// <summary>Reads the form.</summary>
    /// <param name="form">The form.</param>
    /// <param name="before">The settings, of which the form has a part.</param>
    /// <returns>The settings, and every problem under the name of its field.</returns>
    public (BenchSettings Settings, IReadOnlyList<JobProblem> Problems) Read(SettingsForm form, BenchSettings before)
    {
        (int Row, KitFields Kit)[] kits = [.. form.Kits.Index().Where(k => !k.Item.IsBlank)];
        BenchSettings settings = before with
        {
            Blades = Blades(form.Blades),
            Redo = Minutes(form.Redo, "Redo"),
            Lift = Minutes(form.Lift, "Lift"),
            Swap = Minutes(form.Swap, "Swap"),
            Disturb = Minutes(form.Disturb, "Disturb"),
            MinutesPerCurrency = Plain(form.MinutesPerCurrency, "MinutesPerCurrency"),
            Minutes = new(
                Takes(form.TakesBlade, "TakesBlade"), Takes(form.TakesStack, "TakesStack"), Takes(form.TakesBucket, "TakesBucket"),
                Takes(form.TakesMicrometer, "TakesMicrometer"), Takes(form.TakesDepth, "TakesDepth"), Takes(form.TakesDryFit, "TakesDryFit")),
            SizesToBuy = [.. kits.Select(k => new SizesToBuy(
                Length(k.Kit.From, $"Kits[{k.Row}].From"), Length(k.Kit.To, $"Kits[{k.Row}].To"),
                Length(k.Kit.Step, $"Kits[{k.Row}].Step"), Plain(k.Kit.Price, $"Kits[{k.Row}].Price")))],
            Feel = new(
                Length(form.Firm, "Firm"), Length(form.Light, "Light"), Length(form.Loose, "Loose"), Length(form.Spread, "Spread"), Plain(form.Slip, "Slip"),
                Length(form.Doubt, "Doubt")),
            Blade = Length(form.Blade, "Blade"),
            Seating = Length(form.Seating, "Seating"),
            KeepFloor = Plain(form.KeepFloor, "KeepFloor"),
            PassFloor = Plain(form.PassFloor, "PassFloor"),
            Risk = Plain(form.Risk, "Risk"),
            ServiceLevel = Plain(form.ServiceLevel, "ServiceLevel"),
        };
        if (_problems.Count > 0)
        {
            return (before, _problems);
        }

        return (settings, [.. settings.Problems().Select(p => p with { Path = SettingsFields.FieldOf(p.Path, [.. kits.Select(k => k.Row)]) })]);
    }

    private List<double> Blades(string? text) =>
        [.. (text ?? "").Split([' ', ';', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries)
            .Select(b => lengths.Read(b, "Blades").Note(_problems)).OfType<double>()];

    private double Length(string? text, string field) => lengths.Read(text, field).Note(_problems) ?? 0;

    private double Plain(string? text, string field) => TypedNumber.Plain(text, field).Note(_problems) ?? 0;

    private static string Minutes(double? minutes) => minutes is { } m ? Times.Exact(m) : "";

    /// <summary>Nothing entered is something that cannot be done here.</summary>
    private double? Takes(string? text, string field) => TypedNumber.Minutes(text, field, needed: false).Note(_problems);

    private double Minutes(string? text, string field) => TypedNumber.Minutes(text, field).Note(_problems) ?? 0;
}
