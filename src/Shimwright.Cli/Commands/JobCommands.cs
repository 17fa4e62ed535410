using System.CommandLine;
using Shimwright.Cli.Answers;
using Shimwright.Cli.Running;
using Shimwright.Jobs;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Cli.Commands;

/// <summary>The commands that work on a job file.</summary>
internal static class JobCommands
{
    public static IReadOnlyList<Command> All(Terminal terminal) =>
    [
        Create(
            terminal,
            "estimate",
            "Turn the readings of a job into a clearance for every valve, and name the blade to try next.\n"
            + "Example: shimwright estimate demo/04-shim-over-bucket-twin.json --unit thou",
            JobPurpose.Estimate,
            job => new EstimateAnswer(job)),
        Create(
            terminal,
            "plan",
            "Choose what to do at every valve so that all pass the first time: keep, fit or turn.\n"
            + "Example: shimwright plan demo/01-flood-pump.json",
            JobPurpose.Plan,
            job => new PlanAnswer(job),
            second: JobPurpose.SecondPlan),
        Create(
            terminal,
            "next",
            "Name what is worth doing before the plan, and what it saves: a blade, the bucket by hand, a shim to measure, a depth, a dry fit, or nothing more.\n"
            + "Example: shimwright next demo/02-worn-four.json",
            JobPurpose.Next,
            job => new NextAnswer(job),
            second: JobPurpose.SecondNext),
        Create(
            terminal,
            "verdict",
            "Judge a re-check: does every valve pass, and did the work do what was expected?\n"
            + "Example: shimwright verdict demo/01-flood-pump.json",
            JobPurpose.Verdict,
            job => new VerdictAnswer(job)),
        Create(
            terminal,
            "forecast",
            "Say when to check again, how fast each valve wears, and how much room its shim leaves.\n"
            + "Example: shimwright forecast demo/09-third-check.json",
            JobPurpose.Forecast,
            job => new ForecastAnswer(job)),
        Create(
            terminal,
            "stops",
            "Find where the crank has to stop so that every valve can be checked on the heel of its cam, with the fewest stops.\n"
            + "Example: shimwright stops demo/02-worn-four.json",
            JobPurpose.Stops,
            job => new StopsAnswer(job),
            hasLengths: false),
    ];

    private static Command Create(
        Terminal terminal, string name, string about, JobPurpose purpose, Func<Job, IJobAnswer> answer, bool hasLengths = true, JobPurpose? second = null)
    {
        var file = new Argument<string?>("JOB")
        {
            Description = "The job file; - reads standard input.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var json = new Option<bool>("--json") { Description = "Print one JSON document and nothing else." };
        var batch = new Option<string?>("--batch")
        {
            Description = "Read one job a line from a file, - for standard input, and write one JSON result a line.",
            HelpName = "FILE",
        };
        var again = new Option<bool>("--second") { Description = "Work from the re-check: what was fitted is in the engine, and nothing that was learnt is forgotten." };
        Option<LengthUnit> unit = Page.UnitOption();
        var command = new Command(name, about) { file, json, batch };
        if (hasLengths)
        {
            command.Options.Add(unit);
        }

        if (second is not null)
        {
            command.Options.Add(again);
        }

        command.Validators.Add(result =>
        {
            bool hasFile = result.GetResult(file) is { Tokens.Count: > 0 };
            bool hasBatch = result.GetResult(batch) is not null;
            if (hasFile == hasBatch)
            {
                result.AddError(hasFile
                    ? $"{name} takes a JOB or --batch FILE, not both."
                    : $"{name} needs a JOB, or --batch FILE.");
            }
        });
        command.SetAction(parsed =>
        {
            bool isSecond = second is not null && parsed.GetValue(again);
            JobPurpose wanted = isSecond ? second!.Value : purpose;
            Func<Job, IJobAnswer> asked = isSecond ? job => answer(job.NextRound()) : answer;
            return parsed.GetValue(batch) is { } many
                ? BatchRun.Run(terminal, many, wanted, asked)
                : One(terminal, parsed.GetValue(file)!, wanted, asked, parsed.GetValue(json), hasLengths ? parsed.GetValue(unit) : default);
        });
        return command;
    }

    private static int One(
        Terminal terminal, string file, JobPurpose purpose, Func<Job, IJobAnswer> answer, bool json, LengthUnit unit)
    {
        if (Source.ReadAll(terminal, file) is not { } bytes)
        {
            return ExitCode.BadInput;
        }

        ParsedJob reading = JobFile.Read(bytes, purpose);
        if (reading.Job is not { } job)
        {
            foreach (JobProblem problem in reading.Problems)
            {
                terminal.Error.WriteLine(problem);
            }

            return ExitCode.BadInput;
        }

        IJobAnswer result = answer(job);
        if (json)
        {
            terminal.Output.WriteLine(result.Json(indented: true));
        }
        else
        {
            result.Show(new Page(terminal, unit));
        }

        return result.Exit;
    }
}
