using System.Text;

namespace Shimwright.Cli.Running;

/// <summary>What a run of the program is connected to; the tests give it buffers.</summary>
internal sealed record Terminal(Stream Input, TextWriter Output, TextWriter Error, bool OutputIsTerminal, bool ErrorIsTerminal, int Width)
{
    /// <summary>Columns where the output is no terminal.</summary>
    public const int UsualWidth = 120;

    /// <summary>What a page of numbers needs; a narrower terminal breaks the lines itself.</summary>
    private const int NarrowestPage = 80;

    public static Terminal OfConsole()
    {
        var utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        return new(
            Console.OpenStandardInput(),
            new StreamWriter(Console.OpenStandardOutput(), utf8, 1 << 16) { AutoFlush = false },
            new StreamWriter(Console.OpenStandardError(), utf8) { AutoFlush = true },
            !Console.IsOutputRedirected,
            !Console.IsErrorRedirected,
            TerminalWidth());
    }

    private static int TerminalWidth()
    {
        if (Console.IsOutputRedirected)
        {
            return UsualWidth;
        }

        try
        {
            return Math.Clamp(Console.WindowWidth, NarrowestPage, 200);
        }
        catch (IOException)
        {
            return UsualWidth;
        }
    }
}
