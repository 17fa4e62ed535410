using System.Text;

namespace Shimwright.Releases;

/// <summary>Whose work travels along, under which licence: a licence that says the same for several is printed once.</summary>
internal static class ThirdPartyNotices
{
    private static readonly string Rule = new('-', 100);

    /// <summary>The text for these packages.</summary>
    /// <param name="packages">The packages.</param>
    public static string Of(IReadOnlyList<Shipped> packages)
    {
        (Shipped Package, Licence Licence)[] all = [.. packages.Select(p => (p, Licence.Of(p)))];
        var text = new StringBuilder();
        Line(text, "Shimwright carries the work of others. Each package is named with its licence and copyright, as the package itself says,");
        Line(text, "then each licence in full with the packages that it holds for, then the notices that packages carry along in turn.");
        Line(text, "");
        foreach ((Shipped package, Licence licence) in all)
        {
            Line(text, $"{package.Name} {package.Version}");
            Line(text, $"    {licence.Expression ?? "licence below"}; {licence.Copyright.ReplaceLineEndings(" ")}");
            if (licence.Project is { } project)
            {
                Line(text, $"    {project}");
            }
        }

        Line(text, "SQLite, in SQLitePCLRaw.lib.e_sqlite3");
        Line(text, "    public domain; https://sqlite.org/copyright.html");
        Line(text, "Open Sans, the letters of the PDF");
        Line(text, "    Apache-2.0; Digitized data copyright 2010-2011, Google Corporation");
        Chapter(text, all, "Licence of", l => l.Text);
        Chapter(text, all, "Notices carried along by", l => l.Notices);
        return text.ToString();
    }

    private static void Chapter(StringBuilder text, (Shipped Package, Licence Licence)[] all, string title, Func<Licence, string?> words)
    {
        foreach (IGrouping<string, (Shipped Package, Licence Licence)> same in all.Where(a => words(a.Licence) is not null).GroupBy(a => words(a.Licence)!, StringComparer.Ordinal))
        {
            Line(text, "");
            Line(text, Rule);
            Line(text, title + " " + string.Join(", ", same.Select(s => s.Package.Name).Distinct(StringComparer.Ordinal)));
            Line(text, Rule);
            Line(text, "");
            Line(text, same.Key);
        }
    }

    private static void Line(StringBuilder text, string line) => text.Append(line).Append('\n');
}
