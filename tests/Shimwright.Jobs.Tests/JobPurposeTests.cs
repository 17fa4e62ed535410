using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

public class JobPurposeTests
{
    public static TheoryData<JobPurpose> All() => [.. Enum.GetValues<JobPurpose>()];

    [Theory]
    [MemberData(nameof(All))]
    public void Read_CompleteJob_IsTakenForEveryPurpose(JobPurpose purpose) => Reading.Takes(Sample.Shims(), purpose);

    [Theory]
    [MemberData(nameof(All))]
    public void Read_PastCheck_IsTakenForEveryPurpose(JobPurpose purpose) =>
        Reading.Takes(Sample.Shims().Append("$.history", Sample.PastCheck), purpose);

    [Fact]
    public void Read_PastCheckAfterTheCheck_IsRefusedForItsClock() => Reading.Refuses(
        Sample.Shims().Append("$.history", Sample.PastCheck).Set("$.history[0].clock", "119"), "$.history", "found a clock of 118 after one of 119");

    [Fact]
    public void Read_PastCheckAtTheSameClock_NeedsNoWear()
    {
        JobDraft draft = Sample.Shims().Append("$.history", Sample.PastCheck).Set("$.history[0].clock", "118").Remove("$.engine.wear");
        Reading.Takes(draft, JobPurpose.Plan);
        Reading.Refuses(draft.Set("$.history[0].clock", "117"), "$.engine.wear", "a history over some running needs", JobPurpose.Plan);
    }

    [Fact]
    public void Read_Horizon_NeedsWearWhereShimsAreChosen()
    {
        JobDraft draft = Sample.Shims().Set("$.costs.horizon", "30").Remove("$.engine.wear");
        Reading.Refuses(draft, "$.engine.wear", "a horizon above 0 needs", JobPurpose.Plan);
        Reading.Takes(draft, JobPurpose.Estimate);
        Reading.Takes(draft, JobPurpose.Verdict);
    }

    [Fact]
    public void Read_SecondPlanWithoutARecheck_IsRefused() => Reading.Refuses(
        Sample.Shims().Remove("$.recheck"), "$.recheck", "a second plan needs what was changed and read at the re-check", JobPurpose.SecondPlan);

    [Fact]
    public void Read_SecondPlanWithAValveChangedAndNotFelt_IsRefused() => Reading.Refuses(
        Sample.Shims().Set("$.recheck.readings", "[]"), "$.recheck.readings", "\"E1\" was changed and not read again", JobPurpose.SecondPlan);

    /// <summary>A valve that an earlier round read and left alone needs no reading; one that it changed does.</summary>
    [Fact]
    public void Read_EarlierRounds_CountAsReadWhatTheyLeftAlone()
    {
        JobDraft draft = Sample.Shims().Append("$.rounds", Sample.PastCheck).Set("$.rounds[0].clock", "118");
        Reading.Takes(draft.Remove("$.check.readings[1]"), JobPurpose.Plan);
        Reading.Refuses(draft.Set("$.check.readings", "[]"), "$.check.readings", "valve \"I1\" has no reading", JobPurpose.Plan);
    }

    [Fact]
    public void Read_EarlierRoundAfterTheCheck_IsRefusedForItsClock() => Reading.Refuses(
        Sample.Shims().Append("$.rounds", Sample.PastCheck).Set("$.rounds[0].clock", "119"), "$.rounds", "found a clock of 118 after one of 119");

    [Fact]
    public void Read_ForecastWithoutWear_IsRefused() => Reading.Refuses(
        Sample.Shims().Remove("$.engine.wear"), "$.engine.wear", "a forecast needs", JobPurpose.Forecast);

    [Fact]
    public void Read_WrongWear_IsNotAlsoMissed() => Reading.Refuses(
        Sample.Shims().Set("$.engine.wear.interval", "0"), "$.engine.wear.interval", "above 0", JobPurpose.Forecast);

    [Fact]
    public void Read_ForecastOfACheckWithoutReadings_NeedsReadingsInThePast()
    {
        JobDraft draft = Sample.Shims().Set("$.check.readings", "[]");
        Reading.Refuses(draft, "$.check.readings", "a forecast needs at least one reading", JobPurpose.Forecast);
        Reading.Takes(draft.Append("$.history", Sample.PastCheck), JobPurpose.Forecast);
    }

    [Fact]
    public void Read_PastChecks_GiveAllTheirProblemsAtOnce()
    {
        ParsedJob reading = Reading.Of(Sample.Shims()
            .Append("$.history", Sample.PastCheck).Append("$.history", Sample.PastCheck)
            .Set("$.history[0].readings[0].value", "11").Set("$.history[0].changed[0].to.thickness", "262")
            .Set("$.history[1].readings[1].valve", "\"X9\"").Set("$.history[1].blades", "[0.1, 0.1]")
            .Set("$.history[1].loss", "{\"shared\": 9}").Set("$.history[1].temperatureC", "500").Text, JobPurpose.Forecast);
        Assert.Equal(
            [
                "$.history[0].changed[0].to.thickness", "$.history[0].readings[0].value", "$.history[1].blades", "$.history[1].loss.shared",
                "$.history[1].readings[1].valve", "$.history[1].temperatureC",
            ],
            reading.Problems.Select(p => p.Path).Order(StringComparer.Ordinal));
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
        ParsedJob reading = Reading.Of(Sample.Shims().Remove("$.check.fitted").Text, JobPurpose.Plan);
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
