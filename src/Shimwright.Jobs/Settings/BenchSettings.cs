using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Settings;

/// <summary>What the bench sets once for all its jobs; lengths in mm, times in minutes.</summary>
public sealed record BenchSettings
{
    /// <summary>The blades of the set, mm.</summary>
    public IReadOnlyList<double> Blades { get; init; } = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30, 0.35, 0.40];

    /// <summary>The feel of the person.</summary>
    public FeelSettings Feel { get; init; } = FeelSettings.Usual;

    /// <summary>Standard uncertainty of one blade's thickness, mm.</summary>
    public double Blade { get; init; } = FeelProfile.Default.Blade;

    /// <summary>How well a shim seats before a bench has found out for itself, standard deviation, mm.</summary>
    public static double UsualSeating => PlanRules.Default.Seating.StandardDeviation;

    /// <summary>How well a shim seats, standard deviation, mm.</summary>
    public double Seating { get; init; } = UsualSeating;

    /// <summary>The least chance of being in band with which a valve may be left alone.</summary>
    public double KeepFloor { get; init; } = PlanRules.Default.KeepFloor;

    /// <summary>The risk of a valve outside its band at which the next check is due.</summary>
    public double Risk { get; init; } = 0.10;

    /// <summary>How often the drawer should have the size that is wanted.</summary>
    public double ServiceLevel { get; init; } = 0.90;

    /// <summary>A second round before anything is lifted again, minutes.</summary>
    public double Redo { get; init; } = 90;

    /// <summary>Lifting an access group for which the engine has no minutes of its own.</summary>
    public double Lift { get; init; } = 25;

    /// <summary>One valve's change, minutes.</summary>
    public double Swap { get; init; } = 3;

    /// <summary>Minutes that one unit of currency is worth.</summary>
    public double MinutesPerCurrency { get; init; } = 1;

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

    /// <summary>system, light or dark.</summary>
    public string Theme { get; init; } = "system";

    /// <summary>The settings as JSON in one line, the form in which they are kept.</summary>
    /// <returns>JSON.</returns>
    public string ToJson() => JsonSerializer.Serialize(this, BenchSettingsContext.Default.BenchSettings);

    /// <summary>Reads settings that were kept; what they do not say, since it was not there yet, is as usual.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The settings.</returns>
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

    /// <summary>The members that a job starts with.</summary>
    /// <param name="access">Minutes to lift each access group of the engine.</param>
    /// <returns>"blades", "stock", "costs" and "settings".</returns>
    public JsonObject ForJob(IReadOnlyDictionary<string, double> access)
    {
        ArgumentNullException.ThrowIfNull(access);
        return new()
        {
            ["blades"] = new JsonArray([.. Blades.Select(b => JsonValue.Create(b))]),
            ["stock"] = new JsonObject
            {
                ["buy"] = new JsonArray([.. SizesToBuy.Select(k => new JsonObject { ["from"] = k.From, ["to"] = k.To, ["step"] = k.Step, ["price"] = k.Price })]),
            },
            ["costs"] = new JsonObject
            {
                ["redo"] = Redo,
                ["swap"] = Swap,
                ["minutesPerCurrency"] = MinutesPerCurrency,
                ["access"] = new JsonObject(access.Select(a => KeyValuePair.Create<string, JsonNode?>(a.Key, a.Value))),
            },
            ["settings"] = new JsonObject
            {
                ["feel"] = new JsonObject { ["firm"] = Feel.Firm, ["light"] = Feel.Light, ["loose"] = Feel.Loose, ["spread"] = Feel.Spread, ["slip"] = Feel.Slip },
                ["blade"] = Blade,
                ["seating"] = Seating,
                ["keepFloor"] = KeepFloor,
                ["risk"] = Risk,
                ["serviceLevel"] = ServiceLevel,
            },
        };
    }

    /// <summary>Says what is wrong with the settings; the rules are those of the job file.</summary>
    /// <returns>The problems, with the paths of a job file.</returns>
    public IReadOnlyList<JobProblem> Problems()
    {
        if (Numbers().Any(n => !double.IsFinite(n)))
        {
            return [new("settings", "found no number", "finite numbers are needed")];
        }

        JsonObject file = ForJob(new Dictionary<string, double> { ["cover"] = Lift });
        var check = new JsonObject { ["clock"] = 0, ["readings"] = new JsonArray(), ["blades"] = file["blades"]!.DeepClone() };
        file.Remove("blades");
        file["format"] = "shimwright-job/1";
        file["check"] = check;
        file["engine"] = new JsonObject
        {
            ["name"] = "any",
            ["valvetrain"] = "shim-under-bucket",
            ["valves"] = new JsonArray(new JsonObject { ["id"] = "I1", ["cylinder"] = 1, ["side"] = "intake", ["access"] = "cover", ["band"] = new JsonArray(0.1, 0.2) }),
        };
        List<JobProblem> problems = [.. JobFile.Read(Encoding.UTF8.GetBytes(file.ToJsonString()), JobPurpose.Draft).Problems];
        AddChoice(problems, "unit", Unit, "mm", "in", "thou");
        AddChoice(problems, "distance", Distance, "km", "mi");
        AddChoice(problems, "theme", Theme, "system", "light", "dark");
        problems.AddRange(KitsOffered.SelectMany((k, i) => k.Problems().Select(p => p with { Path = $"kitsOffered[{i}].{p.Path}" })));
        if (Currency.Length > 8)
        {
            problems.Add(new("currency", $"found {Currency.Length} characters", "allowed are 8"));
        }

        return problems;
    }

    private IEnumerable<double> Numbers() =>
    [
        .. Blades, Feel.Firm, Feel.Light, Feel.Loose, Feel.Spread, Feel.Slip, Blade, Seating, KeepFloor, Risk, ServiceLevel, Redo, Lift, Swap, MinutesPerCurrency,
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
