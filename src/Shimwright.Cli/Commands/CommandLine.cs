using System.CommandLine;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using Shimwright.Cli.Running;

namespace Shimwright.Cli.Commands;

/// <summary>The commands, and the one place where what went wrong becomes an exit code.</summary>
internal static class CommandLine
{
    public static int Run(string[] args, Terminal terminal)
    {
        try
        {
            ParseResult parsed = Root(terminal).Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
            if (parsed.Errors.Count > 0 && parsed.Action is null or ParseErrorAction)
            {
                foreach (string message in Messages(parsed))
                {
                    terminal.Error.WriteLine($"shimwright: {message}");
                }

                string command = string.Concat(Path(parsed.CommandResult).Reverse().Select(c => " " + c));
                terminal.Error.WriteLine($"shimwright: see 'shimwright{command} --help'");
                return ExitCode.BadCommandLine;
            }

            int exit = parsed.Invoke(new InvocationConfiguration
            {
                Output = terminal.Output,
                Error = terminal.Error,
                EnableDefaultExceptionHandler = false,
                // A bench that is told to end while the machine is busy takes longer than the two seconds that it would have.
                ProcessTerminationTimeout = TimeSpan.FromSeconds(20),
            });
            terminal.Output.Flush();
            return exit;
        }
        catch (IOException broken)
        {
            // A pipe that was closed at the other end, a full disk, or a file that cannot be read to its end.
            terminal.Error.WriteLine($"shimwright: {broken.Message}");
            return ExitCode.BadInput;
        }
        finally
        {
            Flush(terminal);
        }
    }

    /// <summary>The commands that were named, the innermost first.</summary>
    private static IEnumerable<string> Path(SymbolResult? at)
    {
        for (; at is not null; at = at.Parent)
        {
            if (at is CommandResult { Command: not RootCommand } named)
            {
                yield return named.Command.Name;
            }
        }
    }

    private static RootCommand Root(Terminal terminal)
    {
        var root = new RootCommand(
            "Shimwright turns what was felt at each valve into a clearance with its doubt, and chooses a shim for every valve.\n"
            + "Exit codes: 0 done; 1 the input is wrong; 2 the command line is wrong; 3 done, but a valve is stranded.");
        Command[] commands =
        [
            .. JobCommands.All(terminal),
            TimingCommand.Create(terminal),
            ServeCommand.Create(terminal),
            DeviceCommands.Create(terminal),
            ReadyCommand.Create(terminal),
            PocketCommand.Create(terminal),
            .. CopyCommands.All(terminal),
            CalibrateCommand.Create(terminal),
            DemoCommand.Create(terminal),
            SchemaCommand.Create(terminal),
        ];
        Array.ForEach(commands, root.Add);
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

    private static void Flush(Terminal terminal)
    {
        try
        {
            terminal.Output.Flush();
        }
        catch (IOException)
        {
            // The reader has gone; there is nobody left to tell.
        }
    }
}
