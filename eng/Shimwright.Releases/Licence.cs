using System.Reflection;
using System.Text;
using System.Xml.Linq;

namespace Shimwright.Releases;

/// <summary>What a package says of its own licence.</summary>
/// <param name="Expression">The SPDX expression; null where the package has a file or names none.</param>
/// <param name="Text">The words of the licence.</param>
/// <param name="Copyright">Whose it is.</param>
/// <param name="Project">The address of its project, or null.</param>
/// <param name="Notices">Notices of others that the package carries along, or null.</param>
internal sealed record Licence(string? Expression, string Text, string Copyright, string? Project, string? Notices)
{
    /// <summary>Packages that name no licence, and what their project says instead.</summary>
    private static readonly Dictionary<string, string> Unnamed = new(StringComparer.Ordinal)
    {
        ["StbImageWriteSharp"] = "Public domain, as the page of its project says; the package names no licence.",
    };

    /// <summary>Reads it from the package.</summary>
    /// <param name="package">The package.</param>
    /// <exception cref="InvalidDataException">It names a licence whose words are not at hand, or none.</exception>
    public static Licence Of(Shipped package)
    {
        XElement facts = XDocument.Load(Path.Combine(package.Folder, package.Name.ToLowerInvariant() + ".nuspec")).Root!.Elements().First(e => e.Name.LocalName == "metadata");
        string? Fact(string name) => facts.Elements().FirstOrDefault(e => e.Name.LocalName == name)?.Value.Trim() is { Length: > 0 } value ? value : null;
        XElement? licence = facts.Elements().FirstOrDefault(e => e.Name.LocalName == "license");
        string? expression = licence?.Attribute("type")?.Value == "expression" ? licence.Value.Trim() : null;
        string? own = licence?.Attribute("type")?.Value == "file" ? Read(Path.Combine(package.Folder, licence.Value.Trim())) : FileOf(package.Folder, "LICENSE");
        string text = own ?? WordsOf(package, expression);
        return new(expression, text, Fact("copyright") ?? Fact("authors") ?? package.Name, Fact("projectUrl"), FileOf(package.Folder, "THIRD-PARTY-NOTICES") ?? FileOf(package.Folder, "ThirdPartyNotices"));
    }

    private static string WordsOf(Shipped package, string? expression)
    {
        if (expression is null)
        {
            return Unnamed.TryGetValue(package.Name, out string? said)
                ? said
                : throw new InvalidDataException($"{package.Name} {package.Version} names no licence. Look at its project and write down what holds, in Licence.cs.");
        }

        // Of several that may be chosen from, the first whose words are here.
        return expression.Split(" OR ").Select(choice => Kept(choice.Trim())).FirstOrDefault(words => words is not null)
            ?? throw new InvalidDataException($"{package.Name} {package.Version} is under {expression}: put the words of that licence into Licences.");
    }

    private static string? Kept(string name)
    {
        using Stream? words = Assembly.GetExecutingAssembly().GetManifestResourceStream(name);
        if (words is null)
        {
            return null;
        }

        using var reader = new StreamReader(words, Encoding.UTF8);
        return Tidy(reader.ReadToEnd());
    }

    private static string? FileOf(string folder, string name) => Directory.EnumerateFiles(folder)
        .Where(f => Path.GetFileNameWithoutExtension(f).Equals(name, StringComparison.OrdinalIgnoreCase)).Order(StringComparer.Ordinal).Select(Read).FirstOrDefault();

    private static string Read(string file) => Tidy(File.ReadAllText(file));

    private static string Tidy(string text) => text.ReplaceLineEndings("\n").Trim('\n', '﻿');
}
