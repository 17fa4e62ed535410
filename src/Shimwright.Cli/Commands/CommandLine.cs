using System.CommandLine;
using System.CommandLine.Invocation;
using System.Reflection;

namespace Shimwright.Cli.Commands;

/// <summary>The commands, and the one place where what went wrong becomes an exit code.</summary>
internal static class CommandLine
{
    public static int Run(string[] args, Bench bench)
    {
        try
        {
            ParseResult parsed = Root(bench).Parse(args);
            if (parsed.Errors.Count > 0 && parsed.Action is null or ParseErrorAction)
            {
                foreach (string message in parsed.Errors.Select(e => e.Message).Distinct())
                {
                    bench.Error.WriteLine($"shimwright: {message}");
                }

                bench.Error.WriteLine("shimwright: see 'shimwright --help'");
                return ExitCode.BadCommandLine;
            }

            return parsed.Invoke(new InvocationConfiguration
            {
                Output = bench.Output,
                Error = bench.Error,
                EnableDefaultExceptionHandler = false,
            });
        }
        catch (IOException broken)
        {
            // A pipe that was closed at the other end, or a full disk.
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
            DemoCommand.Create(bench),
            SchemaCommand.Create(bench),
        };
        return root;
    }

    public static string Version =>
        typeof(CommandLine).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "";

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
