using System.Collections.Concurrent;
using Shimwright.Jobs;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Jobs;

namespace Shimwright.Web.Jobs;

/// <summary>What is computed for one state of a job, each when it is first asked for.</summary>
internal sealed class JobAnswer(JobSheet sheet)
{
    private readonly Lazy<Job> _job = new(() => JobSheetFile.Read(sheet, JobPurpose.Draft).Job
        ?? throw new InvalidOperationException("What is kept of the job is no job file."));

    private readonly Lazy<EstimateResult> _estimate = new(() => EstimateResult.Of(JobSheetFile.Read(sheet, JobPurpose.Draft).Job!));
    private readonly Lazy<JobReading> _forPlan = new(() => JobSheetFile.Read(sheet, JobPurpose.Plan));
    private readonly Lazy<PlanResult?> _plan = new(() => JobSheetFile.Read(sheet, JobPurpose.Plan).Job is { } job ? PlanResult.Of(job) : null);
    private readonly Lazy<JobReading> _forVerdict = new(() => JobSheetFile.Read(sheet, JobPurpose.Verdict));
    private readonly Lazy<VerdictResult?> _verdict = new(() => JobSheetFile.Read(sheet, JobPurpose.Verdict).Job is { } job ? VerdictResult.Of(job) : null);
    private readonly Lazy<StopsResult?> _stops = new(() => JobSheetFile.Read(sheet, JobPurpose.Stops).Job is { } job ? StopsResult.Of(job) : null);

    /// <summary>The job as far as it has come.</summary>
    public Job Job => _job.Value;

    /// <summary>The estimate; before any reading it is what is expected.</summary>
    public EstimateResult Estimate => _estimate.Value;

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
}

/// <summary>Answers that were computed already: a job's state is known by its number of entries, so an answer cannot be stale.</summary>
internal sealed class JobAnswers
{
    private const int Most = 256;

    private readonly ConcurrentDictionary<Guid, (int Last, JobAnswer Answer)> _answers = new();

    public JobAnswer For(StoredJob job)
    {
        if (_answers.TryGetValue(job.Summary.Id, out (int Last, JobAnswer Answer) known) && known.Last == job.Sheet.Last)
        {
            return known.Answer;
        }

        if (_answers.Count >= Most)
        {
            _answers.Clear();
        }

        var answer = new JobAnswer(job.Sheet);
        _answers[job.Summary.Id] = (job.Sheet.Last, answer);
        return answer;
    }
}
