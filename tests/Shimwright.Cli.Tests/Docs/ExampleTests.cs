using System.Text.RegularExpressions;
using Shimwright.Cli.Commands;

namespace Shimwright.Cli.Tests.Docs;

/// <summary>
/// Output that is shown in a page of the docs is output of this program: a block that follows the comment
/// "example: ARGS" must stand, word for word but for spaces at line ends, in what the program prints for ARGS.
/// </summary>
public sealed partial class ExampleTests
{
    [Fact]
    public void Readme_Example_IsWhatTheProgramPrints()
    {
        string root = Root();
        string readme = File.ReadAllText(Path.Combine(root, "README.md"));
        MatchCollection examples = Example().Matches(readme);
        Assert.NotEmpty(examples);
        foreach (Match example in examples)
        {
            string shown = Trimmed(example.Groups["block"].Value);
            Assert.NotEmpty(shown);
            Assert.Contains(shown, Trimmed(Run(root, example.Groups["args"].Value)), StringComparison.Ordinal);
        }
    }

    private static string Run(string root, string args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var bench = new Bench(Stream.Null, output, error, OutputIsTerminal: false, ErrorIsTerminal: false, Bench.UsualWidth);
        string[] words = [.. args.Split(' ').Select(w => w.StartsWith("demo/", StringComparison.Ordinal) ? Path.Combine(root, w) : w)];
        Assert.Equal(ExitCode.Done, CommandLine.Run(words, bench));
        return output.ToString();
    }

    private static string Trimmed(string text) =>
        string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Select(l => l.TrimEnd())).Trim('\n');

    private static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Shimwright.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("The tests run inside the project's folder.");
    }

    [GeneratedRegex("<!-- example: (?<args>[^>]*?) -->\n```text\n(?<block>.*?)```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
