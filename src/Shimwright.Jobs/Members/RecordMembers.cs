using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Shimwright.Jobs.Members;

/// <summary>
/// The door of the program itself: an object that is a record already. Its members are the record's own, under the names that
/// they have in a file; nothing is written as text and read again.
/// </summary>
internal sealed class RecordMembers : ReadMembers<object>
{
    private static readonly ConcurrentDictionary<Type, FrozenDictionary<string, Func<object, object?>>> MembersOf = new();

    private readonly object _record;
    private readonly JsonSerializerOptions _names;
    private readonly FrozenDictionary<string, Func<object, object?>> _members;

    private RecordMembers(string path, object record, JsonSerializerOptions names, List<JobProblem> problems)
        : base(path, problems)
    {
        _record = record;
        _names = names;
        _members = MembersOf.GetOrAdd(record.GetType(), static (type, names) => names.GetTypeInfo(type).Properties
            .Where(p => p.Get is not null).ToFrozenDictionary(p => p.Name, p => p.Get!, StringComparer.Ordinal), names);
    }

    /// <summary>Reads a record; <paramref name="names"/> knows its kind and what its members are called in a file.</summary>
    public static T? Read<T>(string path, object record, JsonSerializerOptions names, List<JobProblem> problems, Func<ObjectMembers, T?> read)
        where T : class => read(new RecordMembers(path, record, names, problems));

    protected override bool TryGet(string name, [NotNullWhen(true)] out object? value)
    {
        value = _members.TryGetValue(name, out Func<object, object?>? get) ? get(_record) : null;
        return value is not null;
    }

    protected override T? Open<T>(string at, object value, Func<ObjectMembers, T?> read)
        where T : class => Read(at, value, _names, Problems, read);

    protected override string Show(object value) => JsonText.Shortened(value switch
    {
        double number => number.ToString(CultureInfo.InvariantCulture),
        int number => number.ToString(CultureInfo.InvariantCulture),
        string text => $"\"{JavaScriptEncoder.Default.Encode(text)}\"",
        bool flag => flag ? "true" : "false",
        _ => ListIn(value) is null ? "an object" : "a list",
    });

    protected override double? NumberIn(object value, Measure measure) => value switch
    {
        double number => number,
        int number => number,
        _ => null,
    };

    protected override bool? FlagIn(object value) => value as bool?;

    protected override string? TextIn(object value) => value as string;

    protected override bool IsObject(object value) => value is not (double or int or string or bool) && ListIn(value) is null;

    protected override IReadOnlyList<object>? ListIn(object value) => value switch
    {
        IReadOnlyList<double> numbers => [.. numbers.Select(n => (object)n)],
        _ => value as IReadOnlyList<object>,
    };

    protected override IEnumerable<KeyValuePair<string, object>>? PairsIn(object value) =>
        (value as IReadOnlyDictionary<string, double>)?.Select(p => KeyValuePair.Create(p.Key, (object)p.Value));
}
