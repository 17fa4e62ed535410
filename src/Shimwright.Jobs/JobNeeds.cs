using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;

namespace Shimwright.Jobs;

/// <summary>What a purpose needs that the format itself leaves free.</summary>
internal static class JobNeeds
{
    public static void Note(JobSections sections, JobPurpose purpose, List<JobProblem> problems)
    {
        if (purpose == JobPurpose.Stops)
        {
            if (sections.Engine is { } card)
            {
                StopsNeeds.Note(card, problems);
            }

            return;
        }

        if (purpose == JobPurpose.Draft)
        {
            return;
        }

        NoteWear(sections, purpose, problems);
        if (sections.Engine is not { } engine || sections.Check is not { } check)
        {
            return;
        }

        if (purpose == JobPurpose.Estimate)
        {
            if (check.Readings.IsGiven && check.Readings.Named.Count == 0)
            {
                problems.Add(new("$.check.readings", "nothing was read", "an estimate needs at least one reading"));
            }

            return;
        }

        if (purpose == JobPurpose.Forecast)
        {
            if (check.Readings.IsGiven && check.Readings.Named.Count + sections.History.Concat(sections.Rounds).Sum(p => p.Check.Readings.Named.Count) == 0)
            {
                problems.Add(new("$.check.readings", "nothing was ever read", "a forecast needs at least one reading, here or in history"));
            }

            return;
        }

        if (purpose == JobPurpose.Next)
        {
            return;
        }

        NoteMissing(sections, engine, check, problems);
        if (purpose is JobPurpose.Verdict or JobPurpose.SecondPlan or JobPurpose.SecondNext)
        {
            NoteRecheck(sections.Recheck, purpose == JobPurpose.Verdict ? Verdict : purpose == JobPurpose.SecondPlan ? "a second plan" : "advice after a re-check", problems);
        }
    }

    /// <summary>Where time passes, the card has to say how fast valves wear.</summary>
    private static void NoteWear(JobSections sections, JobPurpose purpose, List<JobProblem> problems)
    {
        if (sections.Engine is not { HasWear: false })
        {
            return;
        }

        string? why = purpose switch
        {
            JobPurpose.Forecast => "a forecast needs",
            JobPurpose.Plan or JobPurpose.SecondPlan or JobPurpose.Next or JobPurpose.SecondNext when sections.Costs.Horizon > 0 => "a horizon above 0 needs",
            _ when Clocks(sections).Distinct().Count() > 1 => "a history over some running needs",
            _ => null,
        };
        if (why is not null)
        {
            problems.Add(new("$.engine.wear", "missing", $"{why} the interval of the card, and what a valve loses in it"));
        }
    }

    private static IEnumerable<double> Clocks(JobSections sections) => sections.History.Count == 0
        ? []
        : sections.History.Concat(sections.Rounds).Select(p => p.Check.Clock).Append(sections.Check?.Clock).OfType<double>();

    private static void NoteMissing(JobSections sections, EngineSection engine, CheckSection check, List<JobProblem> problems)
    {
        foreach (string id in engine.Ids.Distinct(StringComparer.Ordinal))
        {
            if (check.Readings.IsGiven && !check.Readings.Named.Contains(id) && !sections.WasReadBefore(id))
            {
                problems.Add(new("$.check.readings", $"valve \"{id}\" has no reading", "every valve needs one before shims are chosen"));
            }

            if (engine.Adjuster != Adjuster.Screw && !check.Fitted.Named.Contains(id))
            {
                problems.Add(new("$.check.fitted", $"valve \"{id}\" has no thickness", "the shim found at every valve is needed"));
            }
        }
    }

    private const string Verdict = "a verdict";

    private static void NoteRecheck(RecheckSection? recheck, string what, List<JobProblem> problems)
    {
        if (recheck is null)
        {
            problems.Add(new("$.recheck", "missing", $"{what} needs what was changed and read at the re-check"));
            return;
        }

        if (recheck.IsDry && what != Verdict)
        {
            return;
        }

        foreach (string id in recheck.Changed.Named.Where(id => !recheck.Readings.Named.Contains(id)))
        {
            problems.Add(new("$.recheck.readings", $"valve \"{id}\" was changed and not read again", "every changed valve is felt again before the engine is closed"));
        }
    }
}
