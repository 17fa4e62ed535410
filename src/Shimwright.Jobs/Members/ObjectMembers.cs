namespace Shimwright.Jobs.Members;

/// <summary>
/// The members of one JSON object, asked for by name. Sections of the job file are written once against this: over
/// a file it reads and notes every problem, over nothing it notes the shape, from which the schema is made.
/// A member that is missing or wrong comes back as null; the reader goes on, so that all problems come at once.
/// </summary>
internal abstract class ObjectMembers
{
    /// <summary>The JSON path of the object.</summary>
    public abstract string Path { get; }

    /// <summary>Whether the object has this member, right or wrong.</summary>
    public abstract bool Has(string name);

    /// <summary>Whether the member is a list with nothing in it.</summary>
    public abstract bool IsEmptyList(string name);

    public abstract double? Number(string name, NumberRule rule, string about, bool required = false);

    /// <summary>A number that may be left out; the usual one where it was, or is wrong.</summary>
    public double Number(NumberMember member) => Number(member.Name, member.Rule, member.About) ?? member.Usual;

    public abstract int? Whole(string name, int least, int greatest, string about, bool required = false);

    public abstract bool? Flag(string name, string about);

    public abstract string? Name(string name, string about, bool required = false);

    public abstract T? Choice<T>(string name, IReadOnlyDictionary<string, T> choices, string about, bool required = false)
        where T : struct;

    /// <summary>A list of names, each out of a few; null where any of them is wrong.</summary>
    public abstract T[]? Choices<T>(string name, IReadOnlyDictionary<string, T> choices, (int Least, int Most) count, string about)
        where T : struct;

    /// <summary>A list of numbers; null where any of them is wrong.</summary>
    public abstract double[]? Numbers(string name, NumberRule rule, (int Least, int Most) count, string about, bool required = false);

    /// <summary>A list of names; null where any of them is wrong.</summary>
    public abstract IReadOnlyList<string>? Names(string name, (int Least, int Most) count, string about, bool required = false);

    public abstract T? Object<T>(string name, Func<ObjectMembers, T?> read, string about, bool required = false)
        where T : class;

    /// <summary>A number that may as well be written as an object of several.</summary>
    public abstract T? NumberOrObject<T>(string name, NumberRule rule, Func<double, T> of, Func<ObjectMembers, T?> read, string about)
        where T : class;

    /// <summary>A list of objects, less those that are wrong.</summary>
    public abstract IReadOnlyList<T> List<T>(
        string name, Func<ObjectMembers, T?> read, (int Least, int Most) count, string about, bool required = false)
        where T : class;

    /// <summary>One object or a list of them.</summary>
    public abstract IReadOnlyList<T> OneOrMany<T>(string name, Func<ObjectMembers, T?> read, int most, string about)
        where T : class;

    /// <summary>An object whose member names are those of something else in the file, and whose values are numbers.</summary>
    public abstract IReadOnlyDictionary<string, double> Map(string name, NumberRule rule, IReadOnlyCollection<string> keys, string about);

    /// <summary>Notes a problem with a member, or with the object itself where <paramref name="member"/> is empty.</summary>
    public abstract void Problem(string member, string found, string allowed);
}
