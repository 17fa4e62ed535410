using System.Text.Json.Nodes;
using Shimwright.Jobs.Bounds;

namespace Shimwright.Jobs.Members;

/// <summary>Notes the members that a section asks for as a JSON Schema (draft 2020-12) instead of reading any.</summary>
internal sealed class SchemaMembers : ObjectMembers
{
    private readonly JsonObject _properties = [];
    private readonly JsonArray _required = [];

    private SchemaMembers()
    {
    }

    public override string Path => "$";

    /// <summary>The schema of an object that is read this way.</summary>
    public static JsonObject Describe<T>(Func<ObjectMembers, T?> read)
        where T : class
    {
        var members = new SchemaMembers();
        read(members);
        var schema = new JsonObject
        {
            ["type"] = "object",
            ["additionalProperties"] = false,
            ["properties"] = members._properties,
        };
        if (members._required.Count > 0)
        {
            schema["required"] = members._required;
        }

        return schema;
    }

    public override bool Has(string name) => false;

    public override bool IsEmptyList(string name) => false;

    public override double? Number(string name, NumberRule rule, string about, bool required = false)
    {
        Note(name, Number(rule), about, required);
        return null;
    }

    public override int? Whole(string name, int least, int greatest, string about, bool required = false)
    {
        Note(name, new JsonObject { ["type"] = "integer", ["minimum"] = least, ["maximum"] = greatest }, about, required);
        return null;
    }

    public override bool? Flag(string name, string about)
    {
        Note(name, new JsonObject { ["type"] = "boolean" }, about, false);
        return null;
    }

    public override string? Name(string name, string about, bool required = false)
    {
        Note(name, Name(), about, required);
        return null;
    }

    public override T? Choice<T>(string name, IReadOnlyDictionary<string, T> choices, string about, bool required = false)
    {
        Note(name, new JsonObject { ["enum"] = new JsonArray([.. choices.Keys.Select(k => (JsonNode)k)]) }, about, required);
        return null;
    }

    public override T[]? Choices<T>(string name, IReadOnlyDictionary<string, T> choices, (int Least, int Most) count, string about)
    {
        Note(name, List(new JsonObject { ["enum"] = new JsonArray([.. choices.Keys.Select(k => (JsonNode)k)]) }, count), about, false);
        return null;
    }

    public override double[]? Numbers(
        string name, NumberRule rule, (int Least, int Most) count, string about, bool required = false)
    {
        Note(name, List(Number(rule), count), about, required);
        return null;
    }

    public override IReadOnlyList<string>? Names(string name, (int Least, int Most) count, string about, bool required = false)
    {
        Note(name, List(Name(), count), about, required);
        return null;
    }

    public override T? Object<T>(string name, Func<ObjectMembers, T?> read, string about, bool required = false)
        where T : class
    {
        Note(name, Describe(read), about, required);
        return null;
    }

    public override T? NumberOrObject<T>(string name, NumberRule rule, Func<double, T> of, Func<ObjectMembers, T?> read, string about)
        where T : class
    {
        Note(name, new JsonObject { ["anyOf"] = new JsonArray(Number(rule), Describe(read)) }, about, false);
        return null;
    }

    public override IReadOnlyList<T> List<T>(
        string name, Func<ObjectMembers, T?> read, (int Least, int Most) count, string about, bool required = false)
        where T : class
    {
        Note(name, List(Describe(read), count), about, required);
        return [];
    }

    public override IReadOnlyList<T> OneOrMany<T>(string name, Func<ObjectMembers, T?> read, int most, string about)
        where T : class
    {
        Note(name, new JsonObject { ["anyOf"] = new JsonArray(Describe(read), List(Describe(read), (0, most))) }, about, false);
        return [];
    }

    public override IReadOnlyDictionary<string, double> Map(string name, NumberRule rule, IReadOnlyCollection<string> keys, string about)
    {
        Note(name, new JsonObject { ["type"] = "object", ["additionalProperties"] = Number(rule) }, about, false);
        return new Dictionary<string, double>();
    }

    public override void Problem(string member, string found, string allowed)
    {
        // There is no file here that could have one.
    }

    private static JsonObject Name() => new() { ["type"] = "string", ["minLength"] = 1, ["maxLength"] = NameRule.Longest, ["pattern"] = NameRule.Pattern };

    private static JsonObject Number(NumberRule rule)
    {
        var number = new JsonObject { ["type"] = "number" };
        number[rule.LeastIsLeftOut ? "exclusiveMinimum" : "minimum"] = rule.Least;
        number["maximum"] = rule.Greatest;
        return MeasuredText.Example(rule.Measure) is { } example
            ? new JsonObject
            {
                ["anyOf"] = new JsonArray(
                    number, new JsonObject { ["type"] = "string", ["maxLength"] = Limits.LongestNumber, ["pattern"] = "^\\s*[-+]?[0-9.]", ["examples"] = new JsonArray(example) }),
            }
            : number;
    }

    private static JsonObject List(JsonNode items, (int Least, int Most) count) => new()
    {
        ["type"] = "array",
        ["minItems"] = count.Least,
        ["maxItems"] = count.Most,
        ["items"] = items,
    };

    private void Note(string name, JsonObject schema, string about, bool required)
    {
        schema["description"] = about;
        _properties[name] = schema;
        if (required)
        {
            _required.Add(name);
        }
    }
}
