using Shimwright.Cli.Commands;
using Shimwright.Cli.Running;

namespace Shimwright.Cli;

internal static class Program
{
    private static int Main(string[] args)
    {
        Terminal terminal = Terminal.OfConsole();
        try
        {
            return CommandLine.Run(args, terminal);
        }
        catch (OperationCanceledException)
        {
            // Stopped by whoever started it, before it had begun.
            return ExitCode.Done;
        }
        catch (Exception fault) when (fault is not OutOfMemoryException)
        {
            // A fault of the program, not of its input: said in one line, since a stack trace helps nobody at the bench.
            terminal.Error.WriteLine($"shimwright: this should not have happened, please report it with the job file: {fault.GetType().Name}: {fault.Message.ReplaceLineEndings(" ")}");
            return ExitCode.BadInput;
        }
    }
}
