using Shimwright.Domain.Advice;
using Shimwright.Domain.Readings;
using Shimwright.Jobs;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Jobs;

/// <summary>What is computed for one state of a job, each when it is first asked for.</summary>
public sealed class JobAnswer
{
    private readonly Lazy<Job> _job;
    private readonly Lazy<Measured> _measured;
    private readonly Lazy<VerdictResult> _recheck;
    private readonly Lazy<ParsedJob> _forPlan;
    private readonly Lazy<PlanResult?> _plan;
    private readonly Lazy<ParsedJob> _forVerdict;
    private readonly Lazy<VerdictResult?> _verdict;
    private readonly Lazy<StopsResult?> _stops;
    private readonly Lazy<NextResult?> _next;
    private readonly Lazy<PlanResult?> _dryPlan;

    /// <summary>What can be computed for a job as it is.</summary>
    /// <param name="sheet">The job.</param>
    /// <exception cref="ArgumentNullException">There is no job.</exception>
    public JobAnswer(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        _job = new(() => JobSheetFile.Read(sheet, JobPurpose.Draft).Job
            ?? throw new InvalidOperationException("What is kept of the job is no job file."));
        _measured = new(() => Measured.Of(Job));
        _recheck = new(() => VerdictResult.Of(Job));
        _forPlan = new(() => JobSheetFile.Read(sheet, JobPurpose.Plan));
        _plan = new(() => _forPlan.Value.Job is { } job ? PlanResult.Of(job) : null);
        _forVerdict = new(() => JobSheetFile.Read(sheet, JobPurpose.Verdict));
        _verdict = new(() => _forVerdict.Value.Job is { } job ? VerdictResult.Of(job) : null);
        _next = new(() => IsAtRecheck(sheet) ? JobSheetFile.Read(sheet, JobPurpose.Next).Job is { } again ? RecheckNext.Of(again, Recheck, Stops) : null
            : IsAtDryFit(sheet) ? DryAdvice.Of(sheet)
            : IsBeforePlan(sheet) && JobSheetFile.Read(sheet, JobPurpose.Next).Job is { } job
                ? NextResult.Of(job, Advisor.For(job.ToAdviceRequest().WithOff(LiftedGroups.Of(sheet)).Without(ActionKind.DryFit)))
            : null);
        _dryPlan = new(() => DryAdvice.Plan(sheet));
        _stops = new(() => JobSheetFile.Read(sheet, JobPurpose.Stops).Job is { } job ? StopsResult.Of(job) : null);
    }

    /// <summary>The job as far as it has come.</summary>
    public Job Job => _job.Value;

    /// <summary>The estimate; before any reading it is what is expected.</summary>
    public EstimateResult Estimate => _measured.Value.Estimate;

    /// <summary>For every valve the blade that would say most there, mm; null where it is settled or every blade was tried.</summary>
    public IReadOnlyList<double?> NextBlades => _measured.Value.NextBlades;

    /// <summary>The re-check as far as it has come: predictions, and what was felt so far.</summary>
    public VerdictResult Recheck => _recheck.Value;

    /// <summary>The plan, or null where something is missing.</summary>
    public PlanResult? Plan => _plan.Value;

    /// <summary>What the plan still needs.</summary>
    public IReadOnlyList<JobProblem> PlanNeeds => _forPlan.Value.Problems;

    /// <summary>The verdict, or null where something is missing.</summary>
    public VerdictResult? Verdict => _verdict.Value;

    /// <summary>What the verdict still needs.</summary>
    public IReadOnlyList<JobProblem> VerdictNeeds => _forVerdict.Value.Problems;

    /// <summary>
    /// What is worth doing next at the stage at which the job is; null where nothing is asked for, or something is missing. A dry fit is
    /// named once the shims are in.
    /// </summary>
    public NextResult? Next => _next.Value;

    /// <summary>The plan as it can be carried on from what was felt dry; null where nothing was.</summary>
    public PlanResult? DryPlan => _dryPlan.Value;

    /// <summary>The crank stops, or null where the card does not say enough.</summary>
    public StopsResult? Stops => _stops.Value;

    /// <summary>Whether a job is at its re-check or before closing, where another trial may decide the verdict on what was changed.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Whether it is.</returns>
    /// <exception cref="ArgumentNullException">There is no job.</exception>
    public static bool IsAtRecheck(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return JobStages.Of(sheet) is JobStage.Recheck or JobStage.Close && sheet.Engine.Valves.Any(v => sheet.ChangeAt(v.Id) is not null);
    }

    /// <summary>Whether a job is at a stage at which something may pay before a plan is accepted.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Whether it is.</returns>
    /// <exception cref="ArgumentNullException">There is no job.</exception>
    public static bool IsBeforePlan(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return sheet.Closing is null && sheet.Plan is null && JobStages.Of(sheet) <= JobStage.Plan;
    }

    /// <summary>Whether shims are in and their camshaft can be laid down dry.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Whether it can.</returns>
    /// <exception cref="ArgumentNullException">There is no job.</exception>
    public static bool IsAtDryFit(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return JobStages.Of(sheet) == JobStage.Fit && DryFits.Ready(sheet).Count > 0;
    }

    private sealed record Measured(EstimateResult Estimate, IReadOnlyList<double?> NextBlades)
    {
        public static Measured Of(Job job)
        {
            EngineEstimate estimate = EngineEstimate.From(job.Check);
            IReadOnlyList<NextBlade?> next = NextBlade.ForEach(estimate, [.. job.Blades]);
            return new(EstimateResult.Of(job, estimate, NextBlade.Best(next)), [.. next.Select(n => n?.Blade)]);
        }
    }
}
