using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Shimwright.Jobs.Results;

/// <summary>Describes the answers' records in the words of the comments in their code.</summary>
/// <param name="comments">The comments, as the compiler writes them.</param>
public sealed partial class AnswerWords(XDocument comments)
{
    private readonly Dictionary<string, XElement> _members = comments.Descendants("member").ToDictionary(m => (string)m.Attribute("name")!, StringComparer.Ordinal);

    /// <summary>A record in a sentence.</summary>
    internal string? Of(Type record) => Plain(_members.GetValueOrDefault($"T:{record.FullName}")?.Element("summary"));

    /// <summary>A member of a record in a sentence.</summary>
    internal string? Of(PropertyInfo member) =>
        Plain(_members.GetValueOrDefault($"P:{member.DeclaringType!.FullName}.{member.Name}")?.Element("summary"));

    private static string? Plain(XElement? comment) => comment is null ? null : Spaces().Replace(comment.Value, " ").Trim();

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant)]
    private static partial Regex Spaces();
}
