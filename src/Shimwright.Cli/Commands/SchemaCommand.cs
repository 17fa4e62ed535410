using System.CommandLine;
using Shimwright.Cli.Running;
using Shimwright.Jobs;

namespace Shimwright.Cli.Commands;

/// <summary>The command schema.</summary>
internal static class SchemaCommand
{
    public static Command Create(Terminal terminal)
    {
        var command = new Command(
            "schema", "Print the JSON Schema of the job file.\nExample: shimwright schema > job.schema.json");
        command.SetAction(_ =>
        {
            terminal.Output.Write(JobFile.Schema());
            return ExitCode.Done;
        });
        return command;
    }
}
