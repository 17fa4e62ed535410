using System.Text.RegularExpressions;
using Xunit;

namespace Shimwright.Architecture;

public partial class SourceTextTests
{
    private const int MostLines = 250;

    [Fact]
    public void SourceFiles_OfTheProduct_AreShort()
    {
        string[] files = [.. Repository.Files("src", ".cs", ".razor").Where(IsWritten)];
        Assert.True(files.Length > 50, "There is no product to look at.");
        Assert.All(files, f => Assert.True(File.ReadLines(f).Count() <= MostLines, $"{f} has more than {MostLines} lines."));
    }

    [Fact]
    public void Suppressions_InTheProduct_SayWhy() =>
        Assert.All(
            Repository.Files("src", ".cs").Where(IsWritten).SelectMany(f => File.ReadLines(f).Select(line => (File: f, Line: line)))
                .Where(l => l.Line.Contains("#pragma warning disable", StringComparison.Ordinal)),
            l => Assert.True(l.Line.Contains("//", StringComparison.Ordinal), $"{l.File}: {l.Line.Trim()} gives no reason."));

    /// <summary>The one habit of form that the build does not see to: System first, then by name.</summary>
    [Fact]
    public void Imports_OfEveryFile_AreInOrder()
    {
        string[] files = [.. new[] { "src", "tests", "bench", "eng" }.SelectMany(folder => Repository.Files(folder, ".cs")).Where(IsWritten)];
        Assert.All(files, f =>
        {
            string[] imports = [.. File.ReadLines(f).Select(l => Import().Match(l)).Where(m => m.Success).Select(m => m.Groups[1].Value)];
            Assert.True(imports.SequenceEqual(imports.OrderBy(SortKey, StringComparer.Ordinal)), $"{f}: {string.Join(", ", imports)}");
        });
    }

    private static string SortKey(string import) =>
        (import.Split('.')[0] == "System" ? "0" : "1") + import.ToUpperInvariant().Replace('.', ' ');

    [GeneratedRegex(@"^using ([\w.]+);$")]
    private static partial Regex Import();

    /// <summary>Migrations are written by the tool that compares the models; nobody reads them as rooms.</summary>
    private static bool IsWritten(string file) => !file.Contains($"{Path.DirectorySeparatorChar}Migrations{Path.DirectorySeparatorChar}", StringComparison.Ordinal);

    [Fact]
    public void Texts_OfTheProject_StandAlone()
    {
        // Nothing outside the project may be needed to understand it.
        string outside = "../" + "shared";
        string[] files =
        [
            .. Repository.Files("src", ".cs", ".csproj", ".razor", ".json", ".css", ".js"),
            .. Repository.Files("docs", ".md"),
            .. Directory.EnumerateFiles(Repository.Root, "*.md"),
        ];
        Assert.All(files, f => Assert.DoesNotContain(outside, File.ReadAllText(f), StringComparison.Ordinal));
    }
}
