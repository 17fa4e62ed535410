using Xunit;

namespace Shimwright.Architecture;

public class SourceTextTests
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
