using Shimwright.Cli.Commands;

namespace Shimwright.Cli;

internal static class Program
{
    private static int Main(string[] args) => CommandLine.Run(args, Bench.OfConsole());
}
