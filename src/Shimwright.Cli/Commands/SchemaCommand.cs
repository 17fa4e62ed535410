using System.CommandLine;
using Shimwright.Bench.Contents;
using Shimwright.Cli.Running;
using Shimwright.Jobs;

namespace Shimwright.Cli.Commands;

/// <summary>The command schema.</summary>
internal static class SchemaCommand
{
    public static Command Create(Terminal terminal)
    {
        var archive = new Option<bool>("--archive") { Description = "The schema of the archive that 'export' writes." };
        var command = new Command(
            "schema", "Print the JSON Schema of the job file, or of a bench's archive.\nExample: shimwright schema > job.schema.json") { archive };
        command.SetAction(parsed =>
        {
            terminal.Output.Write(parsed.GetValue(archive) ? ArchiveSchema.Text() : JobFile.Schema());
            return ExitCode.Done;
        });
        return command;
    }
}
