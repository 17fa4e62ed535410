using System.Text;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Tests.Samples;

/// <summary>A sheet that a test writes on, an action a fact.</summary>
internal sealed class Ledger(JobSetup setup)
{
    private readonly List<JobEntry> _entries = [];

    public JobSheet Sheet => JobSheet.Of(setup, [.. _entries]);

    /// <summary>A job file taken in, with the facts that stood in it.</summary>
    public static Ledger ImportedJob(string json)
    {
        ParsedSetup reading = JobSetup.FromFile(Encoding.UTF8.GetBytes(json));
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        Ledger ledger = new(reading.Setup!);
        foreach (JobFact fact in reading.Facts)
        {
            ledger.Add(fact);
        }

        return ledger;
    }

    /// <summary>Two valves with shims, nothing read yet.</summary>
    public static Ledger Shims() => ImportedJob(Sample.Shims().Remove("$.recheck").Remove("$.check.fitted").Set("$.check.readings", "[]").Text);

    /// <summary>Two valves with screws, nothing read yet.</summary>
    public static Ledger Screws() => ImportedJob(Sample.Screws().Remove("$.recheck").Set("$.check.readings", "[]").Text);

    /// <summary>Both valves read and their shims known, so that a plan can be made.</summary>
    public static Ledger ShimsMeasured()
    {
        Ledger ledger = Shims();
        ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01));
        ledger.Add(new ClearanceRead(SheetPart.Check, "E1", 0.17, 0.01));
        ledger.Add(new ThicknessFound("I1", 2.62, "micrometer"));
        ledger.Add(new ThicknessFound("E1", 2.75, "micrometer"));
        return ledger;
    }

    /// <summary>The plan of such a sheet accepted.</summary>
    public static Ledger ShimsPlanned()
    {
        Ledger ledger = ShimsMeasured();
        ledger.Add(ledger.ItsPlan());
        return ledger;
    }

    /// <summary>A plan that changes E1 alone, every step ticked and the shim fitted.</summary>
    public static Ledger ShimsFitted()
    {
        Ledger ledger = ShimsPlanned();
        ledger.TickAll();
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "calliper")));
        return ledger;
    }

    public Guid Add(JobFact fact, string device = "phone") => Add([fact], device);

    public Guid Add(IEnumerable<JobFact> facts, string device = "phone")
    {
        Guid action = Action(_entries.Count + 1);
        foreach (JobFact fact in facts.ToArray())
        {
            _entries.Add(new(_entries.Count + 1, action, device, DateTime.UnixEpoch.AddMinutes(_entries.Count), fact));
        }

        return action;
    }

    public void TickAll()
    {
        foreach (FitStep step in FitSteps.For(Sheet))
        {
            Add(new StepTicked(step.Name, true));
        }
    }

    /// <summary>The plan that the planner makes of the sheet as it is.</summary>
    public PlanAccepted ItsPlan()
    {
        ParsedJob reading = JobSheetFile.Read(Sheet, JobPurpose.Plan);
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        PlanResult plan = PlanResult.Of(reading.Job!);
        return new(plan.Opened, plan.ChanceAll, plan.Minutes, plan.Bought, plan.Valves, plan.Stranded);
    }

    public static Guid Action(int number) => new(number, 1, 2, new byte[8]);
}
