using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

public class JobPurposeTests
{
    public static TheoryData<JobPurpose> All() => [.. Enum.GetValues<JobPurpose>()];

    [Theory]
    [MemberData(nameof(All))]
    public void Read_CompleteJob_IsTakenForEveryPurpose(JobPurpose purpose) => Reading.Takes(Sample.Shims(), purpose);

    /// <summary>Where the crank stops does not depend on the past.</summary>
    public static TheoryData<JobPurpose> ThatUseThePast() => [.. Enum.GetValues<JobPurpose>().Except([JobPurpose.Stops])];

    [Theory]
    [MemberData(nameof(ThatUseThePast))]
    public void Read_PastChecks_AreRefusedUntilTheWearModelIsThere(JobPurpose purpose) => Reading.Refuses(
        Sample.Shims().Append("$.history", Sample.PastCheck), "$.history", "the wear model", purpose);

    [Fact]
    public void Read_PastCheckAfterTheCheck_IsRefusedForItsClockToo() => Reading.Notes(
        Sample.Shims().Append("$.history", Sample.PastCheck).Set("$.history[0].clock", "119"), "$.history", "found a clock of 118 after one of 119");

    [Fact]
    public void Read_PastCheckAtTheSameClock_IsNotRefusedForIt()
    {
        JobReading reading = Reading.Of(Sample.Shims().Append("$.history", Sample.PastCheck).Set("$.history[0].clock", "118").Text);
        Assert.Contains("the wear model", Assert.Single(reading.Problems).Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_Horizon_IsRefusedWhereAPlanWouldNeedTheWearModel()
    {
        JobDraft draft = Sample.Shims().Set("$.costs.horizon", "30");
        Reading.Refuses(draft, "$.costs.horizon", "the wear model", JobPurpose.Plan);
        Reading.Takes(draft, JobPurpose.Estimate);
        Reading.Takes(draft, JobPurpose.Verdict);
    }

    [Theory]
    [InlineData(JobPurpose.Plan)]
    [InlineData(JobPurpose.Verdict)]
    public void Read_ValveWithoutReading_IsMissedWhereShimsAreChosen(JobPurpose purpose)
    {
        JobDraft draft = Sample.Shims().Remove("$.check.readings[0]");
        Reading.Refuses(draft, "$.check.readings", "valve \"I1\" has no reading", purpose);
        Reading.Takes(draft, JobPurpose.Estimate);
    }

    [Theory]
    [InlineData(JobPurpose.Plan)]
    [InlineData(JobPurpose.Verdict)]
    public void Read_ValveWithoutThickness_IsMissedWhereShimsAreChosen(JobPurpose purpose)
    {
        JobDraft draft = Sample.Shims().Remove("$.check.fitted[1]");
        Reading.Refuses(draft, "$.check.fitted", "valve \"E1\" has no thickness", purpose);
        Reading.Takes(draft, JobPurpose.Estimate);
    }

    [Fact]
    public void Read_NoThicknessesAtAll_MissesEveryValve()
    {
        JobReading reading = Reading.Of(Sample.Shims().Remove("$.check.fitted").Text, JobPurpose.Plan);
        Assert.Equal(["$.check.fitted", "$.check.fitted"], reading.Problems.Select(p => p.Path));
    }

    [Fact]
    public void Read_WrongThickness_IsNotAlsoMissed() => Reading.Refuses(
        Sample.Shims().Set("$.check.fitted[1].thickness", "275"), "$.check.fitted[1].thickness", "2.75 meant?", JobPurpose.Plan);

    [Fact]
    public void Read_WrongReading_IsNotAlsoMissed() => Reading.Refuses(
        Sample.Shims().Set("$.check.readings[1].value", "\"?\""), "$.check.readings[1].value", "found \"?\"", JobPurpose.Plan);

    [Fact]
    public void Read_NoReadings_IsRefusedForAnEstimate() => Reading.Refuses(
        Sample.Shims().Set("$.check.readings", "[]"), "$.check.readings", "an estimate needs at least one reading");

    [Fact]
    public void Read_VerdictWithoutRecheck_IsRefused() => Reading.Refuses(
        Sample.Shims().Remove("$.recheck"), "$.recheck", "a verdict needs what was changed and read", JobPurpose.Verdict);

    [Fact]
    public void Read_ChangedValveThatWasNotReadAgain_IsRefusedForAVerdictOnly()
    {
        JobDraft draft = Sample.Shims().Set("$.recheck.readings", "[]");
        Reading.Refuses(draft, "$.recheck.readings", "valve \"E1\" was changed and not read again", JobPurpose.Verdict);
        Reading.Takes(draft, JobPurpose.Plan);
    }

    [Fact]
    public void Read_UnchangedValves_NeedNoNewReading() => Reading.Takes(
        Sample.Shims().Set("$.recheck", """{"changed": [], "readings": []}"""), JobPurpose.Verdict);
}
