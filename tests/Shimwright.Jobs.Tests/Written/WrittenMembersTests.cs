using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Written;

/// <summary>The records that a job is written down in have the members of a job file, all of them and no others.</summary>
public class WrittenMembersTests
{
    /// <summary>What the reader of a file asks for, the records have; what they have, it asks for: nothing is lost between the two doors.</summary>
    [Fact]
    public void Records_OfAJob_HaveTheMembersOfAFile()
    {
        Dictionary<Type, HashSet<string>> asked = [];
        Gather(typeof(WrittenJob), JobSchema.Root, asked);
        asked[typeof(WrittenJob)].ExceptWith(["format", "engine"]);
        Assert.True(asked.Count > 15, "The walk went nowhere.");
        Assert.All(asked, a => Assert.Equal(a.Value.Order(), NamesOf(a.Key).Order()));
    }

    [Fact]
    public void FromFile_NumbersAsTextWithAUnit_AreTheBareNumbers()
    {
        JobDraft bare = Sample.Shims().Append("$.history", Sample.PastCheck).Set("$.check.camshafts", $"[{CamshaftWithSizes}]")
            .Set("$.settings.instruments.marked", """{"repeat": 0.004, "shared": 0.001}""")
            .Set("$.check.loss", """{"shared": 0.05, "own": 0.03}""").Set("$.recheck.temperatureC", "21");
        var worded = (JsonObject)JsonNode.Parse(bare.Text)!;
        int changed = Worded(worded, "$", bare);
        Assert.True(changed > 40, $"Only {changed} numbers were worded.");
        Assert.Equal(Written(bare.Text), Written(worded.ToJsonString()));
    }

    /// <summary>A file that was taken for right could not be taken in: its count was a whole number to the reader of files alone.</summary>
    [Fact]
    public void FromFile_WholeNumbersWithAPower_AreThoseNumbers() => Assert.Equal(
        Written(Sample.Shims().Set("$.stock.drawer[0].count", "100").Set("$.check.readings[0].trials[0].leaves", "2").Text),
        Written(Sample.Shims().Set("$.stock.drawer[0].count", "1E+2").Set("$.check.readings[0].trials[0].leaves", "2.0").Text));

    [Fact]
    public void FromFile_OneRowOfSizesAndAListOfOne_AreTheSame() => Assert.Equal(
        Written(Sample.Shims().Set("$.stock.buy", """[{"from": 2, "to": 3, "step": 0.05}]""").Text),
        Written(Sample.Shims().Set("$.stock.buy", """{"from": 2, "to": 3, "step": 0.05}""").Text));

    private const string CamshaftWithSizes =
        """{"name": "intake cam", "saddle": {"value": 11.4, "u": 0.004}, "journal": {"value": 22.9, "u": 0.002}, "baseCircle": {"value": 28, "u": 0.003}}""";

    private static string Written(string json)
    {
        ParsedSetup reading = JobSetup.FromFile(System.Text.Encoding.UTF8.GetBytes(json));
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        return JsonSerializer.Serialize(reading.Setup!.Written) + JsonSerializer.Serialize(reading.Facts);
    }

    private static void Gather(Type record, JsonObject schema, Dictionary<Type, HashSet<string>> asked)
    {
        if (!asked.TryGetValue(record, out HashSet<string>? names))
        {
            asked.Add(record, names = []);
        }

        foreach ((string name, JsonNode? of) in (JsonObject)schema["properties"]!)
        {
            names.Add(name);
            if (record.GetProperty(char.ToUpperInvariant(name[0]) + name[1..]) is { } property
                && ItemOf(property.PropertyType) is { } item && ObjectIn((JsonObject)of!) is { } inner)
            {
                Gather(item, inner, asked);
            }
        }
    }

    /// <summary>The record in a member, itself or in a list; null where it holds none.</summary>
    private static Type? ItemOf(Type type)
    {
        Type item = type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IReadOnlyList<>) ? type.GetGenericArguments()[0] : type;
        return item.Namespace == typeof(WrittenJob).Namespace ? item : null;
    }

    private static JsonObject? ObjectIn(JsonObject schema) => schema switch
    {
        { } when schema.ContainsKey("properties") => schema,
        { } when schema["items"] is JsonObject items => ObjectIn(items),
        { } when schema["anyOf"] is JsonArray variants => variants.OfType<JsonObject>().Select(ObjectIn).FirstOrDefault(o => o is not null),
        _ => null,
    };

    private static IEnumerable<string> NamesOf(Type record) => record.GetProperties().Select(p => char.ToLowerInvariant(p.Name[0]) + p.Name[1..]);

    /// <summary>Writes every number that may have a unit with it, the engine card's apart.</summary>
    private static int Worded(JsonNode node, string path, JobDraft draft)
    {
        int changed = 0;
        IEnumerable<(string Path, object Key, JsonNode? Value)> members = node switch
        {
            JsonObject o => o.Where(m => path != "$" || m.Key != "engine").Select(m => ($"{path}{PathOf(m.Key)}", (object)m.Key, m.Value)).ToArray(),
            JsonArray a => a.Select((v, i) => ($"{path}[{i}]", (object)i, v)).ToArray(),
            _ => [],
        };
        foreach ((string at, object key, JsonNode? value) in members)
        {
            if (value is JsonValue number && number.TryGetValue(out double d) && UnitAt(draft, at) is { } unit)
            {
                JsonNode text = $"{d.ToString(CultureInfo.InvariantCulture)} {unit}";
                _ = key is string name ? ((JsonObject)node)[name] = text : ((JsonArray)node)[(int)key] = text;
                changed++;
            }
            else if (value is not null)
            {
                changed += Worded(value, at, draft);
            }
        }

        return changed;
    }

    private static string PathOf(string name) => name.All(char.IsAsciiLetterOrDigit) ? $".{name}" : $"['{name}']";

    private static string? UnitAt(JobDraft draft, string path) =>
        JobSchema.At(draft, path)["anyOf"]?[1]?["examples"]?[0]?.GetValue<string>() switch
        {
            "0.005 in" => "mm",
            "68 °F" => "°C",
            "1.5 h" => "min",
            _ => null,
        };
}
