using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Settings;

/// <summary>What the bench sets once for all its jobs; lengths in mm, times in minutes.</summary>
public sealed record BenchSettings
{
    /// <summary>An access group, where settings are looked at without an engine.</summary>
    private const string AnyGroup = "cover";

    private const int MostCopies = 365, LongestPath = 1000, LongestZone = 64;

    /// <summary>The blades of the set, mm.</summary>
    public IReadOnlyList<double> Blades { get; init; } = CheckSection.UsualBlades;

    /// <summary>The feel of the person.</summary>
    public FeelSettings Feel { get; init; } = FeelSettings.Usual;

    /// <summary>Standard uncertainty of one blade's thickness, mm.</summary>
    public double Blade { get; init; } = SettingsNumbers.Blade.Usual;

    /// <summary>How well a shim seats before a bench has found out for itself, standard deviation, mm.</summary>
    public static double UsualSeating => SettingsNumbers.Seating.Usual;

    /// <summary>How well a shim seats, standard deviation, mm.</summary>
    public double Seating { get; init; } = UsualSeating;

    /// <summary>The least chance of being in band with which a valve may be left alone.</summary>
    public double KeepFloor { get; init; } = SettingsNumbers.KeepFloor.Usual;

    /// <summary>The least chance of being in band with which a valve passes its re-check.</summary>
    public double PassFloor { get; init; } = SettingsNumbers.PassFloor.Usual;

    /// <summary>The risk of a valve outside its band at which the next check is due.</summary>
    public double Risk { get; init; } = SettingsNumbers.Risk.Usual;

    /// <summary>How often the drawer should have the size that is wanted.</summary>
    public double ServiceLevel { get; init; } = SettingsNumbers.ServiceLevel.Usual;

    /// <summary>Another round apart from lifting and swapping, minutes.</summary>
    public double Redo { get; init; } = CostsSection.Redo.Usual;

    /// <summary>Lifting an access group for which the engine has no minutes of its own.</summary>
    public double Lift { get; init; } = 25;

    /// <summary>One valve's change, minutes.</summary>
    public double Swap { get; init; } = CostsSection.Swap.Usual;

    /// <summary>What changing a valve costs more where it was in band already, minutes.</summary>
    public double Disturb { get; init; } = CostsSection.Disturb.Usual;

    /// <summary>Minutes that one unit of currency is worth.</summary>
    public double MinutesPerCurrency { get; init; } = CostsSection.MinutesPerCurrency.Usual;

    /// <summary>What each kind of action takes, minutes.</summary>
    public ActionTimes Minutes { get; init; } = ActionTimes.Usual;

    /// <summary>The sizes that can be bought; kept as "kits", which is what benches have called it since the first.</summary>
    [JsonPropertyName("kits")]
    public IReadOnlyList<SizesToBuy> SizesToBuy { get; init; } = [new(1.20, 3.50, 0.05, 8)];

    /// <summary>The kits that the bench compares; none of them is bought by being here.</summary>
    public IReadOnlyList<KitOnOffer> KitsOffered { get; init; } = [];

    /// <summary>The sign or code of the currency.</summary>
    public string Currency { get; init; } = "";

    /// <summary>The unit of lengths: mm, in or thou.</summary>
    public string Unit { get; init; } = "mm";

    /// <summary>The unit in which kilometres are shown: km or mi.</summary>
    public string Distance { get; init; } = "km";

    /// <summary>Whether the next valve comes by itself once one is settled.</summary>
    public bool NextComes { get; init; } = true;

    /// <summary>system, light, dark, or sun: black on white with thick edges.</summary>
    public string Theme { get; init; } = "system";

    /// <summary>Whether somebody who has not calibrated their feel is told what that would bring.</summary>
    public bool TellsOfFeel { get; init; } = true;

    /// <summary>Where copies of the bench are kept: a whole path; blank for beside the bench.</summary>
    public string CopyFolder { get; init; } = "";

    /// <summary>How many of the daily copies are kept.</summary>
    public int CopiesKept { get; init; } = 14;

    /// <summary>The workshop as its records name it.</summary>
    public WorkshopSettings Workshop { get; init; } = WorkshopSettings.Blank;

    /// <summary>The time zone in which days and times are shown, such as Europe/Vienna; blank for that of the machine.</summary>
    public string TimeZone { get; init; } = "";

    /// <summary>The settings as JSON in one line, the form in which they are kept.</summary>
    /// <returns>JSON.</returns>
    public string ToJson() => JsonSerializer.Serialize(this, BenchSettingsContext.Default.BenchSettings);

    /// <summary>Reads settings that were kept; what they do not say, since it was not there yet, is as usual.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The settings.</returns>
    /// <exception cref="JsonException">They are not settings that were written here.</exception>
    public static BenchSettings Read(string json)
    {
        if (JsonNode.Parse(json) is not JsonObject kept)
        {
            throw new JsonException("Settings are an object.");
        }

        // The generated reader takes a member that is missing for 0 or null, whatever its default is.
        var whole = (JsonObject)JsonNode.Parse(new BenchSettings().ToJson())!;
        foreach ((string name, JsonNode? value) in kept)
        {
            whole[name] = value?.DeepClone();
        }

        return whole.Deserialize(BenchSettingsContext.Default.BenchSettings)!;
    }

    /// <summary>What a job of this bench starts with.</summary>
    /// <param name="access">Minutes to lift each access group of the engine.</param>
    /// <returns>Blades, sizes to buy, costs and the bench's own constants.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="access"/> is null.</exception>
    public WrittenStart ForJob(IReadOnlyDictionary<string, double> access)
    {
        ArgumentNullException.ThrowIfNull(access);
        return new(
            Blades,
            Stock: new(Buy: [.. SizesToBuy.Select(s => new WrittenSizes(s.From, s.To, s.Step, s.Price))]),
            Costs: new(Redo, Swap, MinutesPerCurrency, Access: access, Disturb: Disturb),
            Settings: new(
                new(Feel.Firm, Feel.Light, Feel.Loose, Feel.Spread, Feel.Slip, Feel.Doubt), Blade, Seating,
                KeepFloor: KeepFloor, Risk: Risk, ServiceLevel: ServiceLevel, PassFloor: PassFloor, Minutes: Minutes.ToWritten()));
    }

    /// <summary>Says what is wrong with the settings; the rules are those of a job.</summary>
    /// <returns>The problems, with the paths of a job file.</returns>
    public IReadOnlyList<JobProblem> Problems()
    {
        if (Numbers().Any(n => !double.IsFinite(n)))
        {
            return [new("settings", "found no number", "finite numbers are needed")];
        }

        WrittenStart start = ForJob(new Dictionary<string, double> { [AnyGroup] = Lift });
        WrittenJob job = new(new(0, null, [], start.Blades), Stock: start.Stock, Costs: start.Costs, Settings: start.Settings);
        List<JobProblem> problems = [.. JobFile.Problems(job, EngineSection.None with { Valves = [ValveSection.Behind(AnyGroup)] })];
        AddChoice(problems, "unit", Unit, "mm", "in", "thou");
        AddChoice(problems, "distance", Distance, "km", "mi");
        AddChoice(problems, "theme", Theme, "system", "light", "dark", "sun");
        problems.AddRange(KitsOffered.SelectMany((k, i) => k.Problems().Select(p => p with { Path = $"kitsOffered[{i}].{p.Path}" })));
        if (CopiesKept is < 1 or > MostCopies)
        {
            problems.Add(new("copiesKept", $"found {CopiesKept} copies", $"allowed are 1 to {MostCopies}"));
        }

        if (CopyFolder.Length > 0 && (CopyFolder.Length > LongestPath || CopyFolder.Any(char.IsControl) || !Path.IsPathFullyQualified(CopyFolder)))
        {
            problems.Add(new("copyFolder", $"found \"{CopyFolder}\"", "a whole path is needed, from the root of the disk on; leave it blank for beside the bench"));
        }

        problems.AddRange(Workshop.Problems());
        // Whether there is such a zone depends on the machine: a bench may be carried to another.
        if (TimeZone.Length > LongestZone || TimeZone.Any(c => !char.IsAsciiLetterOrDigit(c) && c is not ('/' or '_' or '-' or '+')))
        {
            problems.Add(new("timeZone", $"found \"{TimeZone}\"", "allowed is the name of a time zone, such as Europe/Vienna"));
        }

        if (Currency.Length > 8)
        {
            problems.Add(new("currency", $"found {Currency.Length} characters", "allowed are 8"));
        }

        return problems;
    }

    private IEnumerable<double> Numbers() =>
    [
        .. Blades, Feel.Firm, Feel.Light, Feel.Loose, Feel.Spread, Feel.Slip, Feel.Doubt, Blade, Seating, KeepFloor, PassFloor, Risk, ServiceLevel,
        Redo, Lift, Swap, Disturb, MinutesPerCurrency, .. Minutes.Numbers,
        .. SizesToBuy.SelectMany(k => new[] { k.From, k.To, k.Step, k.Price }),
    ];

    private static void AddChoice(List<JobProblem> problems, string name, string found, params string[] allowed)
    {
        if (!allowed.Contains(found, StringComparer.Ordinal))
        {
            problems.Add(new(name, $"found \"{found}\"", $"allowed is {string.Join(", ", allowed)}"));
        }
    }
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(BenchSettings))]
internal sealed partial class BenchSettingsContext : JsonSerializerContext;
