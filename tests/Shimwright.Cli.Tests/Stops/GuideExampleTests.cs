using System.Text.RegularExpressions;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Stops;

/// <summary>What the guide shows of stops and timing stands, but for spaces at line ends, in what the program prints.</summary>
public sealed partial class GuideExampleTests
{
    [Theory]
    [InlineData("crank-stops.md")]
    [InlineData("cam-timing.md")]
    public void Guide_Example_IsWhatTheProgramPrints(string page)
    {
        Match example = Assert.Single(Example().Matches(File.ReadAllText(Path.Combine(Root(), "docs", "guide", page))));
        ProgramRun run = ProgramRun.Of([.. example.Groups["args"].Value.Split(' ').Select(a => a.StartsWith("demo/", StringComparison.Ordinal) ? Demo.At(a[5..]) : a)]);
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.NotEmpty(Trimmed(example.Groups["block"].Value));
        Assert.Contains(Trimmed(example.Groups["block"].Value), Trimmed(run.Output), StringComparison.Ordinal);
    }

    private static string Trimmed(string text) =>
        string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Select(l => l.TrimEnd())).Trim('\n');

    private static string Root()
    {
        DirectoryInfo folder = new(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Shimwright.slnx")))
        {
            folder = folder.Parent!;
        }

        return folder.FullName;
    }

    [GeneratedRegex("<!-- example: (?<args>[^>]*?) -->\n```text\n(?<block>.*?)```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
