using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Setups;

public class FactImportTests
{
    [Fact]
    public void FactsOf_AShimJob_AreWhatStoodInTheFile() => Assert.Equal(
        [
            new BladeTried(SheetPart.Check, "I1", 0.10, 1, "loose"),
            new BladeTried(SheetPart.Check, "I1", 0.13, 1, "light"),
            new ClearanceRead(SheetPart.Check, "E1", 0.17, 0.01),
            new BucketTurned(SheetPart.Check, "E1", true),
            new ThicknessFound("I1", 2.62, "micrometer"),
            new ThicknessFound("E1", 2.75, "marked"),
            new ShimFitted("E1", new(2.75, "marked"), new(2.70, "calliper")),
            new RecheckStated(21),
            new BladeTried(SheetPart.Recheck, "E1", 0.20, 1, "loose"),
            new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01),
        ],
        Facts(Sample.Shims()));

    [Fact]
    public void FactsOf_AScrewJob_HaveTurnsAndTheUsualUncertainty() => Assert.Equal(
        [
            new ClearanceRead(SheetPart.Check, "I1", 0.15, 0.01),
            new ClearanceRead(SheetPart.Check, "E1", 0.32, 0.01),
            new ScrewTurned("I1", 0.1),
            new RecheckStated(20),
            new ClearanceRead(SheetPart.Recheck, "I1", 0.23, 0.01),
        ],
        Facts(Sample.Screws()));

    [Fact]
    public void FactsOf_AWarmReading_AreAsRead() => Assert.Contains(
        new ClearanceRead(SheetPart.Check, "E1", 0.17, 0.01),
        Facts(Sample.Shims().Set("$.engine.temperature.kappaMmPerC", "0.001").Set("$.check.temperatureC", "60")));

    [Fact]
    public void FactsOf_SeveralReadingsOfOneValve_AreAllThere() =>
        Assert.Equal(2, Facts(Sample.Shims().Append("$.check.readings", """{"valve": "E1", "value": 0.18}""")).OfType<ClearanceRead>().Count(r => r.Part == SheetPart.Check));

    [Fact]
    public void FactsOf_EveryFeel_IsKept()
    {
        foreach (string feel in (string[])["no", "firm", "light", "loose"])
        {
            Assert.Equal(feel, Facts(Sample.Shims().Set("$.check.readings[0].trials[0].feel", $"\"{feel}\"")).OfType<BladeTried>().First().Feel);
        }
    }

    private static IReadOnlyList<JobFact> Facts(JobDraft draft) => JobSetup.FromFile(draft.Bytes).Facts;
}
