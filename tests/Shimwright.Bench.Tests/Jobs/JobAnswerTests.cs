using Shimwright.Bench.Jobs;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Jobs;

public class JobAnswerTests
{
    /// <summary>At the check all that pays is named, at the re-check what brings the verdict on, and on a closed job nothing.</summary>
    [Fact]
    public void Next_AtEachStage_IsOfThatStage()
    {
        Assert.All(new JobAnswer(SheetWith(f => f is ReadingFact { Part: SheetPart.Check } or ThicknessFound)).Next!.Next, n => Assert.Null(n.Needed));
        JobAnswer unread = new(SheetWith(f => f is not ReadingFact { Part: SheetPart.Recheck }));
        Assert.All(unread.Next!.Next, n => Assert.Equal(PassResult.NotFelt, n.Needed));
        JobSheet read = SheetWith(_ => true);
        Assert.DoesNotContain(new JobAnswer(read).Next!.Next, n => n.Needed == PassResult.NotFelt || n.Do is not ("blade" or "bucket"));
        Assert.Null(new JobAnswer(read.With(new JobClosed(200, "", "", ""))).Next);
    }

    private static JobSheet SheetWith(Func<JobFact, bool> which)
    {
        ParsedSetup taken = ImportedJob("01-flood-pump.json");
        return JobSheet.Of(taken.Setup!, [.. taken.Facts.Where(which).Select((f, i) => new JobEntry(i + 1, Guid.NewGuid(), "phone", default, f))]);
    }
}
