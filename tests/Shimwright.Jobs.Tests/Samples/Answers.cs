using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Tests.Samples;

/// <summary>What the three commands answer to a job, as JSON.</summary>
internal static class Answers
{
    public static string Estimate(JobDraft draft) =>
        ResultJson.Write(EstimateResult.Of(Reading.Takes(draft, JobPurpose.Estimate)), indented: true);

    public static string Plan(JobDraft draft) =>
        ResultJson.Write(PlanResult.Of(Reading.Takes(draft, JobPurpose.Plan)), indented: true);

    public static string Verdict(JobDraft draft) =>
        ResultJson.Write(VerdictResult.Of(Reading.Takes(draft, JobPurpose.Verdict)), indented: true);

    public static string Forecast(JobDraft draft) =>
        ResultJson.Write(ForecastResult.Of(Reading.Takes(draft, JobPurpose.Forecast)), indented: true);

    public static string All(JobDraft draft) => string.Join('\n', Estimate(draft), Plan(draft), Verdict(draft));
}
