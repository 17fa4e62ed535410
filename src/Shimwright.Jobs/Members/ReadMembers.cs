using System.Diagnostics.CodeAnalysis;
using Shimwright.Jobs.Bounds;

namespace Shimwright.Jobs.Members;

/// <summary>
/// Reads the members of an object, whichever door it came through: here, and nowhere else, it is noted what is missing, of
/// another kind than belongs there, or out of its range. A door says only what its values are.
/// </summary>
internal abstract partial class ReadMembers<TValue>(string path, List<JobProblem> problems) : ObjectMembers
    where TValue : notnull
{
    public override string Path => path;

    protected List<JobProblem> Problems => problems;

    public override bool Has(string name) => TryGet(name, out _);

    public override bool IsEmptyList(string name) => TryGet(name, out TValue? value) && ListIn(value) is { Count: 0 };

    public override double? Number(string name, NumberRule rule, string about, bool required = false) =>
        Find(name, required, out TValue? value) ? NumberAt(Join(name), value, rule) : null;

    public override int? Whole(string name, int least, int greatest, string about, bool required = false) =>
        !Find(name, required, out TValue? value) ? null
        : NumberIn(value, Measure.Plain) is { } number && number == Math.Floor(number) && number >= least && number <= greatest ? (int)number
        : Refused<int>(name, value, $"allowed is a whole number from {least} to {greatest}");

    public override bool? Flag(string name, string about) =>
        !Find(name, false, out TValue? value) ? null : FlagIn(value) ?? Refused<bool>(name, value, "allowed is true or false");

    public override string? Name(string name, string about, bool required = false)
    {
        if (!Find(name, required, out TValue? value))
        {
            return null;
        }

        return NameAt(Join(name), value);
    }

    public override T? Choice<T>(string name, IReadOnlyDictionary<string, T> choices, string about, bool required = false) =>
        !Find(name, required, out TValue? value) ? null
        : ChoiceAt(Join(name), value, choices);

    public override T? Object<T>(string name, Func<ObjectMembers, T?> read, string about, bool required = false)
        where T : class =>
        Find(name, required, out TValue? value) ? Open(Join(name), value, read) : null;

    public override T? NumberOrObject<T>(string name, NumberRule rule, Func<double, T> of, Func<ObjectMembers, T?> read, string about)
        where T : class =>
        !Find(name, false, out TValue? value) ? null
        : IsObject(value) ? Open(Join(name), value, read)
        : NumberAt(Join(name), value, rule) is { } number ? of(number)
        : null;

    public override IReadOnlyList<T> List<T>(
        string name, Func<ObjectMembers, T?> read, (int Least, int Most) count, string about, bool required = false)
        where T : class =>
        Items(name, count, required) is { } items ? ReadAll(name, items, read) : [];

    public override IReadOnlyList<T> OneOrMany<T>(string name, Func<ObjectMembers, T?> read, int most, string about)
        where T : class
    {
        if (Find(name, false, out TValue? single) && IsObject(single))
        {
            return Open(Join(name), single, read) is { } value ? [value] : [];
        }

        return Items(name, (0, most), false) is { } items ? ReadAll(name, items, read) : [];
    }

    public override IReadOnlyDictionary<string, double> Map(string name, NumberRule rule, IReadOnlyCollection<string> keys, string about)
    {
        Dictionary<string, double> map = new(StringComparer.Ordinal);
        if (!Find(name, false, out TValue? value))
        {
            return map;
        }

        if (PairsIn(value) is not { } pairs)
        {
            Refused<int>(name, value, "an object { } belongs here");
            return map;
        }

        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach ((string key, TValue item) in pairs.TakeWhile(_ => !FirstProblems.AreEnough(problems)))
        {
            string at = Join(name) + JsonText.Member(key);
            if (!seen.Add(key))
            {
                problems.Add(new JobProblem(at, "the member stands there twice", "each member once"));
            }
            else if (!keys.Contains(key))
            {
                problems.Add(new JobProblem(at, "a name that points nowhere", $"known here: {string.Join(", ", keys.Select(k => $"\"{k}\""))}"));
            }
            else if (NumberAt(at, item, rule) is { } number)
            {
                map.Add(key, number);
            }
        }

        return map;
    }

    public override void Problem(string member, string found, string allowed) =>
        problems.Add(new JobProblem(member.Length == 0 ? path : Join(member), found, allowed));

    /// <summary>The member of a name, where the object has it.</summary>
    protected abstract bool TryGet(string name, [NotNullWhen(true)] out TValue? value);

    /// <summary>Hears of every name that a reader asks for.</summary>
    protected virtual void Asked(string name)
    {
    }

    /// <summary>Reads the object that a value is.</summary>
    protected abstract T? Open<T>(string at, TValue value, Func<ObjectMembers, T?> read)
        where T : class;

    /// <summary>A value as it stands there, shortened, for messages.</summary>
    protected abstract string Show(TValue value);

    /// <summary>The number that a value is in the program's own unit, allowed or not; null where it is none.</summary>
    protected abstract double? NumberIn(TValue value, Measure measure);

    protected abstract bool? FlagIn(TValue value);

    protected abstract string? TextIn(TValue value);

    protected abstract bool IsObject(TValue value);

    /// <summary>The entries of the list that a value is; null where it is none.</summary>
    protected abstract IReadOnlyList<TValue>? ListIn(TValue value);

    /// <summary>The members of the object that a value is, in their order; null where it is none.</summary>
    protected abstract IEnumerable<KeyValuePair<string, TValue>>? PairsIn(TValue value);

    private bool Find(string name, bool required, [NotNullWhen(true)] out TValue? value)
    {
        Asked(name);
        if (TryGet(name, out value))
        {
            return true;
        }

        if (required)
        {
            Problem(name, "missing", "this member is required");
        }

        return false;
    }

    private IReadOnlyList<TValue>? Items(string name, (int Least, int Most) count, bool required)
    {
        if (!Find(name, required, out TValue? value))
        {
            return null;
        }

        if (ListIn(value) is not { } items)
        {
            Refused<int>(name, value, "a list [ ] belongs here");
            return null;
        }

        if (items.Count < count.Least || items.Count > count.Most)
        {
            string allowed = count.Least == count.Most ? $"exactly {count.Most}" : $"{count.Least} to {count.Most}";
            Problem(name, $"found {items.Count} entries", $"allowed are {allowed}");
            return null;
        }

        return items;
    }

    private List<T> ReadAll<T>(string name, IReadOnlyList<TValue> items, Func<ObjectMembers, T?> read)
        where T : class
    {
        List<T> values = [];
        for (int i = 0; i < items.Count && !FirstProblems.AreEnough(problems); i++)
        {
            if (Open($"{Join(name)}[{i}]", items[i], read) is { } value)
            {
                values.Add(value);
            }
        }

        return values;
    }

    private double? NumberAt(string at, TValue value, NumberRule rule)
    {
        if (rule.Measure != Measure.Plain && TextIn(value)?.Length > Limits.LongestNumber)
        {
            problems.Add(new JobProblem(at, $"found {Show(value)}", $"{Limits.NumberRule}; {rule.Words}"));
            return null;
        }

        double? number = NumberIn(value, rule.Measure);
        if (number is { } n && rule.Allows(n))
        {
            return n;
        }

        string example = MeasuredText.Example(rule.Measure) is { } e ? $", as a number or as text such as \"{e}\"" : "";
        problems.Add(new JobProblem(at, $"found {Show(value)}", rule.Words + (number.HasValue ? rule.Hint(number.Value) : example)));
        return null;
    }

    private string? NameAt(string at, TValue value)
    {
        if (TextIn(value) is { } text && NameRule.Allows(text))
        {
            return text;
        }

        problems.Add(new JobProblem(at, $"found {Show(value)}", NameRule.Words));
        return null;
    }

    /// <summary>Notes that something else stands where a value belongs.</summary>
    private T? Refused<T>(string name, TValue value, string allowed)
        where T : struct
    {
        Problem(name, $"found {Show(value)}", allowed);
        return null;
    }

    private T? ChoiceAt<T>(string at, TValue value, IReadOnlyDictionary<string, T> choices)
        where T : struct
    {
        if (TextIn(value) is { } text && choices.TryGetValue(text, out T choice))
        {
            return choice;
        }

        problems.Add(new JobProblem(at, $"found {Show(value)}", $"allowed is {string.Join(", ", choices.Keys.Select(k => $"\"{k}\""))}"));
        return null;
    }

    private string Join(string name) => path + JsonText.Member(name);
}
