namespace Shimwright.Jobs.Members;

/// <summary>The lists of single values among the members: numbers, names, choices.</summary>
internal abstract partial class ReadMembers<TValue>
{
    public override T[]? Choices<T>(string name, IReadOnlyDictionary<string, T> choices, (int Least, int Most) count, string about)
    {
        if (Items(name, count, required: false) is not { } items)
        {
            return null;
        }

        T?[] found = [.. Wanted(items).Select((item, i) => ChoiceAt($"{Join(name)}[{i}]", item, choices))];
        return found.All(f => f.HasValue) ? [.. found.Select(f => f!.Value)] : null;
    }

    public override double[]? Numbers(string name, NumberRule rule, (int Least, int Most) count, string about, bool required = false)
    {
        if (Items(name, count, required) is not { } items)
        {
            return null;
        }

        double?[] numbers = [.. Wanted(items).Select((item, i) => NumberAt($"{Join(name)}[{i}]", item, rule))];
        return numbers.All(n => n.HasValue) ? [.. numbers.Select(n => n!.Value)] : null;
    }

    public override IReadOnlyList<string>? Names(string name, (int Least, int Most) count, string about, bool required = false)
    {
        if (Items(name, count, required) is not { } items)
        {
            return null;
        }

        string?[] names = [.. Wanted(items).Select((item, i) => NameAt($"{Join(name)}[{i}]", item))];
        return names.All(n => n is not null) ? [.. names.OfType<string>()] : null;
    }

    /// <summary>The entries, as long as anything more is read at all.</summary>
    private IEnumerable<TValue> Wanted(IReadOnlyList<TValue> items) => items.TakeWhile(_ => !FirstProblems.AreEnough(problems));
}
