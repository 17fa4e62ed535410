using System.CommandLine;
using System.Xml.Linq;
using Shimwright.Bench.Contents;
using Shimwright.Cli.Running;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Commands;

/// <summary>The command schema.</summary>
internal static class SchemaCommand
{
    private static readonly string Answers = string.Join(", ", AnswerSchema.All.Select(a => a.Name));

    public static Command Create(Terminal terminal)
    {
        var archive = new Option<bool>("--archive") { Description = "The schema of the archive that 'export' writes." };
        var answer = new Option<string?>("--answer") { Description = $"The schema of an answer: {Answers}.", HelpName = "NAME" };
        var command = new Command(
            "schema", "Print the JSON Schema of the job file, of a bench's archive, or of an answer.\nExample: shimwright schema --answer plan > plan.schema.json") { archive, answer };
        answer.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var name }] && Find(name) is null)
            {
                result.AddError($"--answer: found \"{name}\"; allowed are {Answers}.");
            }
        });
        command.Validators.Add(result =>
        {
            if (result.GetResult(archive) is { Implicit: false } && result.GetResult(answer) is not null)
            {
                result.AddError("schema takes --archive or --answer NAME, not both.");
            }
        });
        command.SetAction(parsed =>
        {
            terminal.Output.Write(parsed.GetValue(answer) is { } name ? Find(name)!.Text(Words())
                : parsed.GetValue(archive) ? ArchiveSchema.Text()
                : JobFile.Schema());
            return ExitCode.Done;
        });
        return command;
    }

    private static AnswerSchema? Find(string name) => AnswerSchema.All.FirstOrDefault(a => a.Name == name);

    /// <summary>The comments on the answers' records, which the build puts beside this.</summary>
    private static AnswerWords Words()
    {
        using Stream comments = typeof(SchemaCommand).Assembly.GetManifestResourceStream("Shimwright.Jobs.xml")!;
        return new(XDocument.Load(comments));
    }
}
