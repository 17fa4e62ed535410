namespace Shimwright.Jobs.Results;

/// <summary>The words that a member of an answer is one of: those of a kind of the domain, or a list.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class WordsAttribute : Attribute
{
    public WordsAttribute(Type kind) => All = [.. Words.All(kind)];

    public WordsAttribute(params string[] words) => All = words;

    /// <summary>The words.</summary>
    public IReadOnlyList<string> All { get; }
}
