using System.CommandLine;
using System.CommandLine.Invocation;

namespace Shimwright.Cli.Commands;

/// <summary>The commands, and the one place where what went wrong becomes an exit code.</summary>
internal static class CommandLine
{
    public static int Run(string[] args, Bench bench)
    {
        try
        {
            ParseResult parsed = Root(bench).Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
            if (parsed.Errors.Count > 0 && parsed.Action is null or ParseErrorAction)
            {
                foreach (string message in Messages(parsed))
                {
                    bench.Error.WriteLine($"shimwright: {message}");
                }

                string command = parsed.CommandResult.Command is RootCommand ? "" : $" {parsed.CommandResult.Command.Name}";
                bench.Error.WriteLine($"shimwright: see 'shimwright{command} --help'");
                return ExitCode.BadCommandLine;
            }

            int exit = parsed.Invoke(new InvocationConfiguration
            {
                Output = bench.Output,
                Error = bench.Error,
                EnableDefaultExceptionHandler = false,
            });
            bench.Output.Flush();
            return exit;
        }
        catch (IOException broken)
        {
            // A pipe that was closed at the other end, a full disk, or a file that cannot be read to its end.
            bench.Error.WriteLine($"shimwright: {broken.Message}");
            return ExitCode.BadInput;
        }
        finally
        {
            Flush(bench);
        }
    }

    private static RootCommand Root(Bench bench)
    {
        var root = new RootCommand(
            "Shimwright turns what was felt at each valve into a clearance with its doubt, and chooses a shim for every valve.\n"
            + "Exit codes: 0 done; 1 the input is wrong; 2 the command line is wrong; 3 done, but a valve is stranded.")
        {
            JobCommands.Estimate(bench),
            JobCommands.Plan(bench),
            JobCommands.Verdict(bench),
            JobCommands.Forecast(bench),
            JobCommands.Stops(bench),
            TimingCommand.Create(bench),
            ServeCommand.Create(bench),
            CalibrateCommand.Create(bench),
            DemoCommand.Create(bench),
            SchemaCommand.Create(bench),
        };
        return root;
    }

    /// <summary>What is wrong, each in one line; that no command was named only where nothing else is wrong.</summary>
    private static IEnumerable<string> Messages(ParseResult parsed)
    {
        if (parsed.CommandResult.Command is RootCommand root)
        {
            string commands = string.Join(", ", root.Subcommands.Select(c => c.Name));
            return parsed.UnmatchedTokens is [{ } first, ..]
                ? [$"there is no command '{first}'; the commands are {commands}"]
                : [$"name a command: {commands}"];
        }

        return parsed.Errors.Select(e => e.Message.ReplaceLineEndings(" ").Trim()).Distinct();
    }

    private static void Flush(Bench bench)
    {
        try
        {
            bench.Output.Flush();
        }
        catch (IOException)
        {
            // The reader has gone; there is nobody left to tell.
        }
    }
}
