using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Wording;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>Two readings of one valve that cannot both be right, as the entries that they came in.</summary>
/// <param name="Caution">What is said about them.</param>
/// <param name="Older">The reading that came first.</param>
/// <param name="Newer">The one that contradicts it.</param>
internal sealed record ContradictedReading(string Caution, JobEntry Older, JobEntry Newer)
{
    /// <summary>All of a round. The readings of a job come from the entries, each kind in its order.</summary>
    public static IReadOnlyList<ContradictedReading> In(JobSheet sheet, SheetPart part, Job job) =>
        [.. Contradictions.In(job.Engine, part == SheetPart.Check ? job.Check.Readings : job.Rechecked, LengthWords.Millimetres).Select(c =>
        {
            JobEntry[] read = [.. sheet.Readings(part, c.Valve)];
            JobEntry[] pair = [.. new[] { At(read, c.One), At(read, c.Other) }.OrderBy(e => e.Number)];
            return new ContradictedReading(c.Words, pair[0], pair[1]);
        })];

    private static JobEntry At(JobEntry[] read, ReadingPlace place) =>
        read.Where(e => place.IsBucket ? e.Fact is BucketTurned : e.Fact is BladeTried).ElementAt(place.Place);
}
