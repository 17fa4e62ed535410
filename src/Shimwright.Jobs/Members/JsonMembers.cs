using System.Text.Json;

namespace Shimwright.Jobs.Members;

/// <summary>Reads the members of an object in a file.</summary>
internal sealed class JsonMembers : ObjectMembers
{
    private readonly List<JobProblem> _problems;
    private readonly Dictionary<string, JsonElement> _members = new(StringComparer.Ordinal);
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);

    private JsonMembers(string path, JsonElement element, List<JobProblem> problems)
    {
        Path = path;
        _problems = problems;
        foreach (JsonProperty property in element.EnumerateObject())
        {
            if (!_members.TryAdd(JsonText.NameOf(property), property.Value))
            {
                Problem(JsonText.NameOf(property), "the member stands there twice", "each member once");
            }
        }
    }

    public override string Path { get; }

    /// <summary>Reads a whole object; members that nothing asked for are problems.</summary>
    public static T? Read<T>(string path, JsonElement element, List<JobProblem> problems, Func<ObjectMembers, T?> read)
        where T : class
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            problems.Add(new JobProblem(path, $"found {JsonText.Show(element)}", "an object { } belongs here"));
            return null;
        }

        var members = new JsonMembers(path, element, problems);
        T? value = read(members);
        foreach (string unknown in members._members.Keys.Where(name => !members._known.Contains(name)))
        {
            members.Problem(unknown, "unknown member", $"known here: {string.Join(", ", members._known)}");
        }

        return value;
    }

    public override bool Has(string name) => _members.ContainsKey(name);

    public override bool IsEmptyList(string name) =>
        _members.TryGetValue(name, out JsonElement element)
        && element.ValueKind == JsonValueKind.Array && element.GetArrayLength() == 0;

    public override double? Number(string name, NumberRule rule, string about, bool required = false) =>
        Find(name, required) is { } element ? NumberAt(Join(name), element, rule) : null;

    public override int? Whole(string name, int least, int greatest, string about, bool required = false)
    {
        if (Find(name, required) is not { } element)
        {
            return null;
        }

        if (element.ValueKind == JsonValueKind.Number && element.TryGetDouble(out double value)
            && value == Math.Floor(value) && value >= least && value <= greatest)
        {
            return (int)value;
        }

        Problem(name, $"found {JsonText.Show(element)}", $"allowed is a whole number from {least} to {greatest}");
        return null;
    }

    public override bool? Flag(string name, string about)
    {
        if (Find(name, false) is not { } element)
        {
            return null;
        }

        if (element.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return element.GetBoolean();
        }

        Problem(name, $"found {JsonText.Show(element)}", "allowed is true or false");
        return null;
    }

    public override string? Name(string name, string about, bool required = false)
    {
        if (Find(name, required) is not { } element)
        {
            return null;
        }

        if (JsonText.TextOf(element) is { } text && NameRule.Allows(text))
        {
            return text;
        }

        Problem(name, $"found {JsonText.Show(element)}", NameRule.Words);
        return null;
    }

    public override T? Choice<T>(string name, IReadOnlyDictionary<string, T> choices, string about, bool required = false)
    {
        if (Find(name, required) is not { } element)
        {
            return null;
        }

        if (JsonText.TextOf(element) is { } text && choices.TryGetValue(text, out T value))
        {
            return value;
        }

        Problem(name, $"found {JsonText.Show(element)}", $"allowed is {string.Join(", ", choices.Keys.Select(k => $"\"{k}\""))}");
        return null;
    }

    public override double[]? Numbers(
        string name, NumberRule rule, (int Least, int Most) count, string about, bool required = false)
    {
        if (Items(name, count, required) is not { } items)
        {
            return null;
        }

        double?[] numbers = [.. items.Select((item, i) => NumberAt($"{Join(name)}[{i}]", item, rule))];
        return numbers.All(n => n.HasValue) ? [.. numbers.Select(n => n!.Value)] : null;
    }

    public override T? Object<T>(string name, Func<ObjectMembers, T?> read, string about, bool required = false)
        where T : class =>
        Find(name, required) is { } element ? Read(Join(name), element, _problems, read) : null;

    public override IReadOnlyList<T> List<T>(
        string name, Func<ObjectMembers, T?> read, (int Least, int Most) count, string about, bool required = false)
        where T : class =>
        Items(name, count, required) is { } items ? ReadAll(name, items, read) : [];

    public override IReadOnlyList<T> OneOrMany<T>(string name, Func<ObjectMembers, T?> read, int most, string about)
        where T : class
    {
        if (Find(name, false) is { ValueKind: JsonValueKind.Object } single)
        {
            return Read(Join(name), single, _problems, read) is { } value ? [value] : [];
        }

        return Items(name, (0, most), false) is { } items ? ReadAll(name, items, read) : [];
    }

    public override IReadOnlyDictionary<string, double> Map(string name, NumberRule rule, IReadOnlyCollection<string> keys, string about)
    {
        Dictionary<string, double> map = new(StringComparer.Ordinal);
        if (Find(name, false) is not { } element)
        {
            return map;
        }

        if (element.ValueKind != JsonValueKind.Object)
        {
            Problem(name, $"found {JsonText.Show(element)}", "an object { } belongs here");
            return map;
        }

        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (JsonProperty property in element.EnumerateObject())
        {
            string key = JsonText.NameOf(property);
            string path = Join(name) + JsonText.Member(key);
            if (!seen.Add(key))
            {
                _problems.Add(new JobProblem(path, "the member stands there twice", "each member once"));
            }
            else if (!keys.Contains(key))
            {
                _problems.Add(new JobProblem(path, "a name that points nowhere", $"known here: {string.Join(", ", keys.Select(k => $"\"{k}\""))}"));
            }
            else if (NumberAt(path, property.Value, rule) is { } value)
            {
                map.Add(key, value);
            }
        }

        return map;
    }

    public override void Problem(string member, string found, string allowed) =>
        _problems.Add(new JobProblem(member.Length == 0 ? Path : Join(member), found, allowed));

    private JsonElement? Find(string name, bool required)
    {
        _known.Add(name);
        if (_members.TryGetValue(name, out JsonElement element))
        {
            return element;
        }

        if (required)
        {
            Problem(name, "missing", "this member is required");
        }

        return null;
    }

    private List<JsonElement>? Items(string name, (int Least, int Most) count, bool required)
    {
        if (Find(name, required) is not { } element)
        {
            return null;
        }

        if (element.ValueKind != JsonValueKind.Array)
        {
            Problem(name, $"found {JsonText.Show(element)}", "a list [ ] belongs here");
            return null;
        }

        int length = element.GetArrayLength();
        if (length < count.Least || length > count.Most)
        {
            string allowed = count.Least == count.Most ? $"exactly {count.Most}" : $"{count.Least} to {count.Most}";
            Problem(name, $"found {length} entries", $"allowed are {allowed}");
            return null;
        }

        return [.. element.EnumerateArray()];
    }

    private List<T> ReadAll<T>(string name, List<JsonElement> items, Func<ObjectMembers, T?> read)
        where T : class
    {
        List<T> values = [];
        foreach ((int i, JsonElement item) in items.Index())
        {
            if (Read($"{Join(name)}[{i}]", item, _problems, read) is { } value)
            {
                values.Add(value);
            }
        }

        return values;
    }

    private double? NumberAt(string path, JsonElement element, NumberRule rule) => JsonNumber.Read(path, element, rule, _problems);

    private string Join(string name) => Path + JsonText.Member(name);
}
