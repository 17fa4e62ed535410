using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;

namespace Shimwright.Jobs;

/// <summary>What the crank stops need of an engine card.</summary>
internal static class StopsNeeds
{
    public static void Note(EngineSection engine, List<JobProblem> problems)
    {
        if (engine.Layout is not { } layout)
        {
            if (!engine.HasLayout)
            {
                problems.Add(new("$.engine.layout", "missing", "the crank stops need the firing order and the cam events"));
            }

            return;
        }

        NoteCylinders(engine.Valves, layout, problems);
        NoteSide("intake", ValveSide.Intake, engine, layout, problems);
        NoteSide("exhaust", ValveSide.Exhaust, engine, layout, problems);

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

    private static void NoteCylinders(IReadOnlyList<ValveSection> valves, LayoutCard layout, List<JobProblem> problems)
    {
        foreach (IGrouping<int, ValveSection> stray in valves
            .Where(v => v.Cylinder is { } cylinder && !layout.FiringOrder.Contains(cylinder)).GroupBy(v => v.Cylinder!.Value))
        {
            problems.Add(new(
                "$.engine.layout.firingOrder",
                $"cylinder {stray.Key} of {Names(stray)} never fires",
                $"name it there or correct the cylinder; the order has {string.Join(", ", layout.FiringOrder)}"));
        }
    }

    /// <summary>Notes what is wrong with a side's events once, and with a valve's own only where they are to blame.</summary>
    private static void NoteSide(
        string word, ValveSide side, EngineSection engine, LayoutCard layout, List<JobProblem> problems)
    {
        (int Index, ValveSection Item)[] ofSide = [.. engine.Valves.Index().Where(v => v.Item.Side == side)];
        ValveSection[] onCard = [.. ofSide.Where(v => v.Item.Events is null && !IsNoted($"$.engine.valves[{v.Index}].events", problems)).Select(v => v.Item)];
        string path = $"$.engine.layout.{word}";
        CamEvents? usual = layout.EventsOf(side);
        if (onCard.Length > 0 && usual is null && !IsNoted(path, problems))
        {
            problems.Add(new(path, "missing", $"needed to know when {Names(onCard)} {(onCard.Length == 1 ? "opens and closes" : "open and close")}"));
        }

        bool isUsualNeverClosed = usual is not null && IsNeverClosed(usual, side, [], layout);
        if (onCard.Length > 0 && isUsualNeverClosed)
        {
            problems.Add(NeverClosed(path, $"{Names(onCard)} never on the heel", usual!, layout));
        }

        foreach ((int v, ValveSection valve) in ofSide)
        {
            if ((valve.Events ?? (isUsualNeverClosed ? null : usual)) is { } events && IsNeverClosed(events, side, engine.OffOtherwise(valve), layout))
            {
                problems.Add(NeverClosed($"$.engine.valves[{v}]", $"valve {valve.Id} never on its heel", events, layout));
            }
        }
    }

    private static bool IsNeverClosed(CamEvents events, ValveSide side, IReadOnlyList<OffHeel> also, LayoutCard layout) =>
        CrankLayout.HeelOf(events.OnSide(side), also, layout.ToRamp(), fires: 0).Count == 0;

    private static JobProblem NeverClosed(string path, string what, CamEvents events, LayoutCard layout) => new(
        path,
        $"{what}: open for {NumberRule.Text(events.Duration)} degrees, and {NumberRule.Text(Math.Round(layout.ToRamp().OfEvents, 3))} more at either end",
        "a valve is closed somewhere in the 720 degrees; see its events and rampDeg");

    /// <summary>Whether a problem is known already at a path or below it, so that what follows from it need not be said.</summary>
    private static bool IsNoted(string path, List<JobProblem> problems) =>
        problems.Exists(p => p.Path == path || p.Path.StartsWith(path + '.', StringComparison.Ordinal));

    private static string Names(IEnumerable<ValveSection> valves) => string.Join(", ", valves.Select(v => v.Id));
}
