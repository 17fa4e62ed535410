using System.Collections.Concurrent;
using Shimwright.Bench.Jobs;
using Shimwright.Domain.Readings;
using Shimwright.Jobs;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;

namespace Shimwright.Web.Jobs;

/// <summary>What is computed for one state of a job, each when it is first asked for.</summary>
internal sealed class JobAnswer
{
    private readonly Lazy<Job> _job;
    private readonly Lazy<Measured> _measured;
    private readonly Lazy<VerdictResult> _recheck;
    private readonly Lazy<ParsedJob> _forPlan;
    private readonly Lazy<PlanResult?> _plan;
    private readonly Lazy<ParsedJob> _forVerdict;
    private readonly Lazy<VerdictResult?> _verdict;
    private readonly Lazy<StopsResult?> _stops;

    public JobAnswer(JobSheet sheet)
    {
        _job = new(() => JobSheetFile.Read(sheet, JobPurpose.Draft).Job
            ?? throw new InvalidOperationException("What is kept of the job is no job file."));
        _measured = new(() => Measured.Of(Job));
        _recheck = new(() => VerdictResult.Of(Job));
        _forPlan = new(() => JobSheetFile.Read(sheet, JobPurpose.Plan));
        _plan = new(() => _forPlan.Value.Job is { } job ? PlanResult.Of(job) : null);
        _forVerdict = new(() => JobSheetFile.Read(sheet, JobPurpose.Verdict));
        _verdict = new(() => _forVerdict.Value.Job is { } job ? VerdictResult.Of(job) : null);
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

    /// <summary>The crank stops, or null where the card does not say enough.</summary>
    public StopsResult? Stops => _stops.Value;

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

/// <summary>
/// Answers that were computed already. A job's state is known by its number of entries and, as long as it plans with the shop's
/// drawer and has accepted nothing, by what lies there; so an answer cannot be stale.
/// </summary>
internal sealed class JobAnswers
{
    private const int Most = 512;

    private readonly ConcurrentDictionary<Guid, Kept> _answers = new();
    private long _asked;

    public JobAnswer For(StoredJob job)
    {
        long now = Interlocked.Increment(ref _asked);
        IReadOnlyList<ShimsAtHand>? shop = JobTerms.LiveShop(job.Sheet);
        if (_answers.TryGetValue(job.Summary.Id, out Kept? known) && known.IsOf(job.Sheet.Last, shop))
        {
            known.AskedAt = now;
            return known.Answer;
        }

        if (_answers.Count >= Most)
        {
            DropHalf();
        }

        var answer = new JobAnswer(job.Sheet);
        _answers[job.Summary.Id] = new(job.Sheet.Last, shop, answer) { AskedAt = now };
        return answer;
    }

    /// <summary>The jobs on which somebody works stay; those that nobody has asked for the longest go.</summary>
    private void DropHalf()
    {
        foreach (KeyValuePair<Guid, Kept> old in _answers.OrderBy(a => a.Value.AskedAt).Take(Most / 2).ToArray())
        {
            _answers.TryRemove(old);
        }
    }

    private sealed class Kept(int last, IReadOnlyList<ShimsAtHand>? shop, JobAnswer answer)
    {
        public JobAnswer Answer { get; } = answer;

        /// <summary>The number of the question that asked for it last.</summary>
        public long AskedAt { get; set; }

        /// <summary>Whether it is the answer for a job with so many entries and these shims.</summary>
        public bool IsOf(int entries, IReadOnlyList<ShimsAtHand>? now) =>
            entries == last && (now is null ? shop is null : shop is not null && now.SequenceEqual(shop));
    }
}
