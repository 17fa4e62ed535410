using System.Collections.Concurrent;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Jobs;

/// <summary>
/// Answers that were computed already. A job's state is known by its entries and, as long as it plans with the shop's
/// drawer and has accepted nothing, by what lies there; so an answer cannot be stale.
/// </summary>
public sealed class JobAnswers
{
    private const int Most = 512;

    private readonly ConcurrentDictionary<Guid, Kept> _answers = new();
    private long _asked;

    /// <summary>The answer for a job as it is now.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer; what it holds is computed when it is first asked for.</returns>
    /// <exception cref="ArgumentNullException">There is no job.</exception>
    public JobAnswer For(StoredJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        long now = Interlocked.Increment(ref _asked);
        IReadOnlyList<ShimsAtHand>? shop = JobTerms.LiveShop(job.Sheet);
        (int, int) mark = MarkOf(job.Sheet);
        if (_answers.TryGetValue(job.Summary.Id, out Kept? known) && known.IsOf(mark, shop))
        {
            known.AskedAt = now;
            return known.Answer;
        }

        if (_answers.Count >= Most)
        {
            DropHalf();
        }

        var answer = new JobAnswer(job.Sheet);
        _answers[job.Summary.Id] = new(mark, shop, answer) { AskedAt = now };
        return answer;
    }

    /// <summary>What tells a sheet from another of its job: on a bench that follows another one entries may be numbered anew.</summary>
    private static (int Last, int Actions) MarkOf(JobSheet sheet)
    {
        HashCode actions = new();
        foreach (JobEntry entry in sheet.Entries)
        {
            actions.Add(entry.Action);
        }

        return (sheet.Last, actions.ToHashCode());
    }

    /// <summary>The jobs on which somebody works stay; those that nobody has asked for the longest go.</summary>
    private void DropHalf()
    {
        foreach (KeyValuePair<Guid, Kept> old in _answers.OrderBy(a => a.Value.AskedAt).Take(Most / 2).ToArray())
        {
            _answers.TryRemove(old);
        }
    }

    private sealed class Kept((int, int) mark, IReadOnlyList<ShimsAtHand>? shop, JobAnswer answer)
    {
        public JobAnswer Answer { get; } = answer;

        /// <summary>The number of the question that asked for it last.</summary>
        public long AskedAt { get; set; }

        /// <summary>Whether it is the answer for a job with these entries and these shims.</summary>
        public bool IsOf((int, int) entries, IReadOnlyList<ShimsAtHand>? now) =>
            entries == mark && (now is null ? shop is null : shop is not null && now.SequenceEqual(shop));
    }
}
