using Shimwright.Bench.Jobs;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Jobs;

public class JobAnswerTests
{
    /// <summary>Advice on the re-check is there from the first change on until the job is closed, and at no other stage.</summary>
    [Fact]
    public void RecheckNext_AtEachStage_IsThereOnlyAfterTheWork()
    {
        Assert.Null(new JobAnswer(SheetWith(f => f is ReadingFact { Part: SheetPart.Check } or ThicknessFound)).RecheckNext);
        JobAnswer unread = new(SheetWith(f => f is not ReadingFact { Part: SheetPart.Recheck }));
        Assert.All(unread.RecheckNext!.Next, n => Assert.Equal(PassResult.NotFelt, n.Needed));
        JobSheet read = SheetWith(_ => true);
        Assert.DoesNotContain(new JobAnswer(read).RecheckNext!.Next, n => n.Needed == PassResult.NotFelt || n.Do is not ("blade" or "bucket"));
        Assert.Null(new JobAnswer(read.With(new JobClosed(200, "", "", ""))).RecheckNext);
    }

    private static JobSheet SheetWith(Func<JobFact, bool> which)
    {
        ParsedSetup taken = ImportedJob("01-flood-pump.json");
        return JobSheet.Of(taken.Setup!, [.. taken.Facts.Where(which).Select((f, i) => new JobEntry(i + 1, Guid.NewGuid(), "phone", default, f))]);
    }
}
