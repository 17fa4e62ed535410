using System.Text;
using Shimwright.Cli.Commands;
using Shimwright.Cli.Running;

namespace Shimwright.Cli.Tests.Samples;

/// <summary>What one run of the program answered.</summary>
internal sealed record ProgramRun(int Exit, string Output, string Error)
{
    public string[] ErrorLines => Lines(Error);

    public string[] OutputLines => Lines(Output);

    /// <summary>Runs the program in memory, as if its output went to a file.</summary>
    public static ProgramRun Of(params string[] args) => With("", 120, args);

    /// <summary>Runs the program in memory with this on standard input and pages of this width.</summary>
    public static ProgramRun With(string input, int width, params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var terminal = new Terminal(new MemoryStream(Encoding.UTF8.GetBytes(input)), output, error, false, false, width);
        int exit = CommandLine.Run(args, terminal);
        return new(exit, output.ToString(), error.ToString());
    }

    private static string[] Lines(string text) =>
        text.Length == 0 ? [] : text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n');
}
