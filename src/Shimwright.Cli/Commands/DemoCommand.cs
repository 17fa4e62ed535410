using System.CommandLine;
using Shimwright.Cli.Answers;
using Shimwright.Cli.Running;
using Shimwright.Jobs;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Spectre.Console;

namespace Shimwright.Cli.Commands;

/// <summary>The command demo: every job of the demo folder planned and printed, with what to look at; then its bench in a browser.</summary>
internal static class DemoCommand
{
    public static string Folder => Path.Combine(AppContext.BaseDirectory, "demo");

    public static Command Create(Terminal terminal)
    {
        Option<LengthUnit> unit = Page.UnitOption();
        var once = new Option<bool>("--once") { Description = "Print the plans and end, without opening the bench." };
        Option<int> port = ServeCommand.PortOption($"The port on 127.0.0.1, {ServeCommand.UsualPort} unless given; 0 takes any that is free.");
        var command = new Command(
            "demo",
            "Plan every job of the demo workshop, say what to look at in each, then open its bench in a browser with a job in progress, until Ctrl-C.\n"
            + "Example: shimwright demo --once")
        {
            unit, once, port,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            int exit = Run(terminal, parsed.GetValue(unit));
            return exit != ExitCode.Done || parsed.GetValue(once) ? exit : await ServeAsync(terminal, parsed.GetValue(port), cancel);
        });
        return command;
    }

    /// <summary>Serves the demo workshop from a temporary folder, which is taken away again.</summary>
    private static async Task<int> ServeAsync(Terminal terminal, int port, CancellationToken cancel)
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-demo-").FullName;
        try
        {
            return await ServeCommand.RunAsync(terminal, Path.Combine(folder, "bench.db"), port, cancel, async (database, url) =>
            {
                Guid job = await DemoBench.FillAsync(database);
                terminal.Output.WriteLine($"A job in progress: {url}/jobs/{job}/measure");
            });
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int Run(Terminal terminal, LengthUnit unit)
    {
        var page = new Page(terminal, unit);
        foreach ((string file, string lookAt) in DemoTour.Stops)
        {
            ParsedJob reading = JobFile.Read(File.ReadAllBytes(Path.Combine(Folder, file)), JobPurpose.Plan);
            if (reading.Job is not { } job)
            {
                foreach (JobProblem problem in reading.Problems)
                {
                    terminal.Error.WriteLine($"{file}: {problem}");
                }

                return ExitCode.BadInput;
            }

            page.Console.Write(new Rule($"demo/{Markup.Escape(file)}").LeftJustified());
            page.Console.WriteLine();
            new PlanAnswer(job).Show(page, withWorkOrder: false);
            page.Console.MarkupLineInterpolated($"[bold]Look at:[/] {lookAt}");
            page.Console.WriteLine();
        }

        page.Paragraph("Every plan above comes from a file in the folder demo. 'shimwright plan demo/FILE' prints one with the order of work; "
            + "'shimwright verdict demo/01-flood-pump.json' judges its re-check; 'shimwright --help' lists the rest.");
        return ExitCode.Done;
    }
}
