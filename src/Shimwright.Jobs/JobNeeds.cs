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

        if (sections.PastChecks > 0)
        {
            problems.Add(new("$.history", $"found {sections.PastChecks} past checks", "the wear model that reads them is not built yet; leave history out"));
        }

        if (purpose == JobPurpose.Plan && sections.Costs.Horizon > 0)
        {
            problems.Add(new("$.costs.horizon", $"found {NumberRule.Text(sections.Costs.Horizon)}", "a horizon needs the wear model, which is not built yet; leave it at 0"));
        }

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

        NoteMissing(engine, check, problems);
        if (purpose == JobPurpose.Verdict)
        {
            NoteRecheck(sections.Recheck, problems);
        }
    }

    private static void NoteMissing(EngineSection engine, CheckSection check, List<JobProblem> problems)
    {
        foreach (string id in engine.Ids.Distinct(StringComparer.Ordinal))
        {
            if (check.Readings.IsGiven && !check.Readings.Named.Contains(id))
            {
                problems.Add(new("$.check.readings", $"valve \"{id}\" has no reading", "every valve needs one before shims are chosen"));
            }

            if (engine.Adjuster != Adjuster.Screw && !check.Fitted.Named.Contains(id))
            {
                problems.Add(new("$.check.fitted", $"valve \"{id}\" has no thickness", "the shim found at every valve is needed"));
            }
        }
    }

    private static void NoteRecheck(RecheckSection? recheck, List<JobProblem> problems)
    {
        if (recheck is null)
        {
            problems.Add(new("$.recheck", "missing", "a verdict needs what was changed and read at the re-check"));
            return;
        }

        foreach (string id in recheck.Changed.Named.Where(id => !recheck.Readings.Named.Contains(id)))
        {
            problems.Add(new("$.recheck.readings", $"valve \"{id}\" was changed and not read again", "every changed valve is felt again before the engine is closed"));
        }
    }
}
