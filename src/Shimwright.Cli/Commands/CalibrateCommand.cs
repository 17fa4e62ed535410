using System.CommandLine;
using Shimwright.Cli.Answers;
using Shimwright.Cli.Running;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tables;

namespace Shimwright.Cli.Commands;

/// <summary>The command calibrate: a person's fingers from trials on gaps of known size.</summary>
internal static class CalibrateCommand
{
    public static Command Create(Terminal terminal)
    {
        var file = new Argument<string>("TRIALS") { Description = "A CSV file with the columns gap, blade, leaves (may be left out) and feel; - reads standard input." };
        Option<double?> slip = NumberOption.Create("--slip", "SHARE", "Share of trials whose feel says nothing, 0.02 unless given.", FeelProfile.LeastSlip, FeelProfile.GreatestSlip);
        Option<double?> blade = NumberOption.Create("--blade", "MM", "Standard uncertainty of one blade's thickness, mm, 0.003 unless given.", 0, FeelProfile.GreatestBladeUncertainty);
        var json = new Option<bool>("--json") { Description = "Print one JSON document and nothing else." };
        Option<LengthUnit> unit = Page.UnitOption();
        var command = new Command(
            "calibrate",
            "Fit your own fingers to blades tried in gaps of known size, and print the settings.feel to paste into a job.\n"
            + "Example: shimwright calibrate demo/feel-trials.csv")
        {
            file, slip, blade, json, unit,
        };
        command.SetAction(parsed =>
        {
            var known = new FeelProfile(
                slip: parsed.GetValue(slip) ?? FeelProfile.Default.Slip, blade: parsed.GetValue(blade) ?? FeelProfile.Default.Blade);
            return Run(terminal, parsed.GetValue(file)!, known, parsed.GetValue(json), parsed.GetValue(unit));
        });
        return command;
    }

    private static int Run(Terminal terminal, string file, FeelProfile known, bool json, LengthUnit unit)
    {
        if (Source.ReadAll(terminal, file) is not { } bytes)
        {
            return ExitCode.BadInput;
        }

        TrialReading reading = TrialFile.Read(bytes);
        if (reading.Trials is not { } trials)
        {
            foreach (TableProblem problem in reading.Problems)
            {
                terminal.Error.WriteLine(problem);
            }

            return ExitCode.BadInput;
        }

        FeelCalibrationResult result = FeelCalibrator.Fit(trials, known);
        if (result.Fit is not { } fit)
        {
            terminal.Error.WriteLine(CalibrationWords.Why(result, trials.Count));
            return ExitCode.BadInput;
        }

        var answer = CalibrationResult.Of(trials, fit, result.Next);
        if (json)
        {
            terminal.Output.WriteLine(ResultJson.Write(answer, indented: true));
        }
        else
        {
            CalibrationPage.Write(new Page(terminal, unit), answer, result.Next);
        }

        return ExitCode.Done;
    }
}
