using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;

namespace Shimwright.Jobs;

/// <summary>What the crank stops need of an engine card.</summary>
internal static class StopsNeeds
{
    public static void Note(JobSections sections, List<JobProblem> problems)
    {
        if (sections.Engine is not { } engine)
        {
            return;
        }

        if (engine.Layout is not { } layout)
        {
            if (!engine.HasLayout)
            {
                problems.Add(new("$.engine.layout", "missing", "the crank stops need the firing order and the cam events"));
            }

            return;
        }

        foreach ((int v, ValveSection valve) in engine.Valves.Index())
        {
            NoteValve($"$.engine.valves[{v}]", valve, layout, problems);
        }

        // Only a card without problems makes a layout that can be asked.
        if (problems.Count == 0 && !layout.StopsAnywhere)
        {
            string[] unserved = [.. StopPlan.ServedByNoMark(engine.ToLayout()).Select(v => engine.Valves[v].Id!)];
            if (unserved.Length > 0)
            {
                problems.Add(new(
                    "$.engine.layout.marks",
                    $"no dead centre and no mark finds {string.Join(", ", unserved)} on the heel of its cam",
                    "add a mark to marks, or set stopsAt to \"anywhere\""));
            }
        }
    }

    private static void NoteValve(string path, ValveSection valve, LayoutCard layout, List<JobProblem> problems)
    {
        if (valve.Cylinder is { } cylinder && !layout.FiringOrder.Contains(cylinder))
        {
            problems.Add(new(
                $"{path}.cylinder", $"found {cylinder}, which never fires", $"the firing order has {string.Join(", ", layout.FiringOrder)}"));
            return;
        }

        if (valve.Side is not { } side)
        {
            return;
        }

        if ((valve.Events ?? layout.EventsOf(side)) is not { } events)
        {
            string word = side == ValveSide.Intake ? "intake" : "exhaust";
            problems.Add(new($"$.engine.layout.{word}", "missing", $"valve {valve.Id} needs to know when the {word} valves open and close"));
        }
        else if (HeelArc.Between(valve.Also.Prepend(events.OnSide(side))
            .Select(o => new OffHeel(o.From - layout.RampDegrees, o.Length + (2 * layout.RampDegrees)))).Count == 0)
        {
            problems.Add(new(
                path,
                $"valve {valve.Id} is never on its heel: open for {NumberRule.Text(events.Duration)} degrees, and {NumberRule.Text(layout.RampDegrees)} more at either end",
                "a valve is closed somewhere in the 720 degrees; see its events and rampDeg"));
        }
    }
}
