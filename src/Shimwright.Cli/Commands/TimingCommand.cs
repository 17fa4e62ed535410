using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Shimwright.Cli.Answers;
using Shimwright.Cli.Running;
using Shimwright.Domain.CamTiming;
using Shimwright.Domain.CrankStops;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Commands;

/// <summary>The command timing: teeth, marks, pins, lobes, and what a change of clearance does to the events.</summary>
internal static class TimingCommand
{
    private const int MostPins = 1000;

    public static Command Create(Terminal terminal)
    {
        Option<double?> teeth = NumberOption.Create("--teeth", "Z", "Teeth of the camshaft's sprocket.", Sprocket.FewestTeeth, Sprocket.MostTeeth, whole: true);
        teeth.Required = true;
        Option<double?> offset = NumberOption.Create("--offset", "MM", "How far a mark sits off its line, mm; positive where it is ahead in running direction.", -500, 500);
        Option<double?> radius = NumberOption.Create("--radius", "MM", "Distance of that mark from the camshaft's centre, mm.", 1, 1000);
        Option<double?> pins = NumberOption.Create("--pins", "N", "Chain pins counted in running direction from one camshaft's mark to the other's.", 0, MostPins, whole: true);
        Option<double?> right = NumberOption.Create("--pins-right", "N", "Chain pins that the manual gives.", 0, MostPins, whole: true);
        Option<CamEvents?> intake = Events("--intake", "Intake events, crank degrees: opens before top, closes after bottom dead centre.");
        Option<CamEvents?> exhaust = Events("--exhaust", "Exhaust events, crank degrees: opens before bottom, closes after top dead centre.");
        Option<double?> change = NumberOption.Create("--clearance-change", "MM", "Clearance gained, mm; negative where it is lost.", -2, 2);
        Option<double?> speed = NumberOption.Create("--ramp-speed", "MM", "Lift of the cam's ramp, mm a crank degree.", 1e-6, 1);
        var json = new Option<bool>("--json") { Description = "Print one JSON document and nothing else." };
        var command = new Command(
            "timing",
            "Check cam timing before the starter turns: what a tooth is, what an offset mark or a count of chain pins means.\n"
            + "Example: shimwright timing --teeth 40 --offset 4.2 --radius 30 --pins 14 --pins-right 14")
        {
            teeth, offset, radius, pins, right, intake, exhaust, change, speed, json,
        };
        Together(offset, radius);
        Together(pins, right);
        Together(change, speed);
        change.Validators.Add(result =>
        {
            if (result.GetResult(intake) is null && result.GetResult(exhaust) is null)
            {
                result.AddError("--clearance-change needs --intake or --exhaust: it says what becomes of their events.");
            }
        });
        command.SetAction(parsed =>
        {
            var question = new TimingQuestion(
                new Sprocket((int)parsed.GetValue(teeth)!.Value),
                parsed.GetValue(offset) is { } x && parsed.GetValue(radius) is { } r ? (x, r) : null,
                parsed.GetValue(pins) is { } n && parsed.GetValue(right) is { } m ? new PinCount((int)n, (int)m) : null,
                parsed.GetValue(intake),
                parsed.GetValue(exhaust),
                parsed.GetValue(change) is { } gained && parsed.GetValue(speed) is { } lift ? (gained, lift) : null);
            string[] wrong = [.. WhatCannotBe(question)];
            if (wrong.Length > 0)
            {
                foreach (string message in wrong.Append("see 'shimwright timing --help'"))
                {
                    terminal.Error.WriteLine($"shimwright: {message}");
                }

                return ExitCode.BadCommandLine;
            }

            TimingResult answer = TimingResult.Of(question);
            if (parsed.GetValue(json))
            {
                terminal.Output.WriteLine(ResultJson.Write(answer, indented: true));
            }
            else
            {
                TimingPage.Write(new Page(terminal, LengthUnit.Mm), answer);
            }

            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>Numbers that are each allowed and yet cannot stand together.</summary>
    private static IEnumerable<string> WhatCannotBe(TimingQuestion question)
    {
        if (question.Mark is { } mark && Math.Abs(mark.Offset) > mark.Radius * Sprocket.FurthestOffset)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"--offset: found {mark.Offset} at a --radius of {mark.Radius}, allowed is up to {Sprocket.FurthestOffset} times the radius; are the two swapped?");
        }

        if (question.Clearance is { } clearance
            && new[] { question.Intake, question.Exhaust }.OfType<CamEvents>()
                .Any(e => LobeTiming.AfterClearanceChange(e, clearance.Change, clearance.RampSpeed) is null))
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"--clearance-change: found {clearance.Change} at a --ramp-speed of {clearance.RampSpeed:0.######}, which moves the events by {Math.Abs(clearance.Change / clearance.RampSpeed):0.#} degrees; no valve train does that.");
        }
    }

    /// <summary>Looked at option by option: what the command itself finds wrong would hide what is wrong with a value.</summary>
    private static void Together(Option one, Option other)
    {
        one.Validators.Add(result => Needs(result, other));
        other.Validators.Add(result => Needs(result, one));

        void Needs(OptionResult result, Option missing)
        {
            if (result.GetResult(missing) is null)
            {
                result.AddError($"{one.Name} and {other.Name} belong together.");
            }
        }
    }

    private static Option<CamEvents?> Events(string name, string about) => new(name)
    {
        Description = about,
        HelpName = "OPENS CLOSES",
        Arity = new ArgumentArity(2, 2),
        AllowMultipleArgumentsPerToken = true,
        CustomParser = argument =>
        {
            double?[] values = [.. argument.Tokens.Select(t => NumberOption.Parse(t.Value))];
            if (values is [{ } opens, { } closes]
                && CamEvents.ArePossible(opens, closes))
            {
                return new CamEvents(opens, closes);
            }

            argument.AddError($"{name}: found \"{string.Join(' ', argument.Tokens.Select(t => t.Value))}\", allowed are two numbers from -180 to 180 that leave the valve open for a while.");
            return null;
        },
    };
}
