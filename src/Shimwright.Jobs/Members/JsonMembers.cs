using System.Diagnostics.CodeAnalysis;
using System.Text.Json;

namespace Shimwright.Jobs.Members;

/// <summary>The door of files: an object as JSON text has it. Members that stand there twice or that nothing asks for are problems.</summary>
internal sealed class JsonMembers : ReadMembers<JsonElement>
{
    private readonly Dictionary<string, JsonElement> _members = new(StringComparer.Ordinal);
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);

    private JsonMembers(string path, JsonElement element, List<JobProblem> problems)
        : base(path, problems)
    {
        foreach (JsonProperty property in element.EnumerateObject().TakeWhile(_ => !FirstProblems.AreEnough(problems)))
        {
            if (!_members.TryAdd(JsonText.NameOf(property), property.Value))
            {
                Problem(JsonText.NameOf(property), "the member stands there twice", "each member once");
            }
        }
    }

    /// <summary>Reads a whole object.</summary>
    public static T? Read<T>(string path, JsonElement element, List<JobProblem> problems, Func<ObjectMembers, T?> read)
        where T : class
    {
        if (FirstProblems.AreEnough(problems))
        {
            return null;
        }

        if (element.ValueKind != JsonValueKind.Object)
        {
            problems.Add(new JobProblem(path, $"found {JsonText.Show(element)}", "an object { } belongs here"));
            return null;
        }

        var members = new JsonMembers(path, element, problems);
        T? value = read(members);
        foreach (string unknown in members._members.Keys.Where(name => !members._known.Contains(name)).TakeWhile(_ => !FirstProblems.AreEnough(problems)))
        {
            members.Problem(unknown, "unknown member", $"known here: {string.Join(", ", members._known)}");
        }

        return value;
    }

    protected override bool TryGet(string name, [NotNullWhen(true)] out JsonElement value) => _members.TryGetValue(name, out value);

    protected override void Asked(string name) => _known.Add(name);

    protected override T? Open<T>(string at, JsonElement value, Func<ObjectMembers, T?> read)
        where T : class => Read(at, value, Problems, read);

    protected override string Show(JsonElement value) => JsonText.Show(value);

    /// <summary>A bare number, or text with a unit where the rule measures something.</summary>
    protected override double? NumberIn(JsonElement value, Measure measure) => value.ValueKind switch
    {
        JsonValueKind.Number => value.TryGetDouble(out double number) ? number : null,
        JsonValueKind.String when JsonText.TextOf(value) is { } text => MeasuredText.Read(text, measure),
        _ => null,
    };

    protected override bool? FlagIn(JsonElement value) =>
        value.ValueKind is JsonValueKind.True or JsonValueKind.False ? value.GetBoolean() : null;

    protected override string? TextIn(JsonElement value) => JsonText.TextOf(value);

    protected override bool IsObject(JsonElement value) => value.ValueKind == JsonValueKind.Object;

    protected override IReadOnlyList<JsonElement>? ListIn(JsonElement value) =>
        value.ValueKind == JsonValueKind.Array ? [.. value.EnumerateArray()] : null;

    protected override IEnumerable<KeyValuePair<string, JsonElement>>? PairsIn(JsonElement value) =>
        value.ValueKind == JsonValueKind.Object ? value.EnumerateObject().Select(p => KeyValuePair.Create(JsonText.NameOf(p), p.Value)) : null;
}
