using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Jobs;

/// <summary>What only an owner may say of a job: that it is discarded, that it is put back, and that either is taken back.</summary>
public static class OwnerFacts
{
    /// <summary>Whether a fact may be an owner's to say, whatever the job: if not, the job need not be looked up.</summary>
    /// <param name="fact">The fact.</param>
    /// <returns>Whether it may.</returns>
    public static bool MayBe(JobFact fact) => fact is JobDiscarded or JobPutBack or Undone;

    /// <summary>Whether a fact is an owner's to say.</summary>
    /// <param name="sheet">The job as it is.</param>
    /// <param name="fact">The fact.</param>
    /// <returns>Whether it is.</returns>
    /// <exception cref="ArgumentNullException">There is no job.</exception>
    public static bool Has(JobSheet sheet, JobFact fact)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        // What is taken back may itself take something back: each step leads to an entry that was there before.
        return fact is JobDiscarded or JobPutBack || (fact is Undone undone && sheet.Entries.Any(e => undone.Means(e) && e.Fact != fact && Has(sheet, e.Fact)));
    }
}
