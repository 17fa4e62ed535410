using System.Text.RegularExpressions;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;
using Shimwright.Testing.Served;

namespace Shimwright.Cli.Tests.Docs;

/// <summary>
/// Output that is shown in a page of the docs is output of this program: the block that follows the comment
/// "example: ARGS" must stand, word for word but for spaces at line ends, in what the program prints for ARGS.
/// </summary>
public sealed partial class ExampleTests
{
    [Theory]
    [InlineData("README.md")]
    [InlineData("docs/guide/crank-stops.md")]
    [InlineData("docs/guide/cam-timing.md")]
    [InlineData("docs/guide/feel.md")]
    [InlineData("docs/guide/depth.md")]
    [InlineData("docs/guide/wear.md")]
    public void Page_Example_IsWhatTheProgramPrints(string page)
    {
        Match example = Assert.Single(Example().Matches(File.ReadAllText(Path.Combine(Repository.Root, page))));
        ProgramRun run = ProgramRun.Of([.. example.Groups["args"].Value.Split(' ').Select(a => a.StartsWith("demo/", StringComparison.Ordinal) ? Demo.At(a[5..]) : a)]);
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.NotEmpty(Trimmed(example.Groups["block"].Value));
        Assert.Contains(Trimmed(example.Groups["block"].Value), Trimmed(run.Output), StringComparison.Ordinal);
    }

    private static string Trimmed(string text) =>
        string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Select(l => l.TrimEnd())).Trim('\n');

    [GeneratedRegex("<!-- example: (?<args>[^>]*?) -->\n```text\n(?<block>.*?)```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
