using Shimwright.Cli.Running;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Wording;

namespace Shimwright.Cli.Answers;

/// <summary>What verdict prints.</summary>
internal sealed class VerdictAnswer(Job job) : IJobAnswer
{
    private readonly RecheckVerdict _verdict = RecheckVerdict.On(job.ToRecheck());

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(VerdictResult.Of(job, _verdict), indented);

    public void Show(Page page)
    {
        page.Heading($"Re-check of {job.Engine.Name} ({page.UnitName}, at 20 degrees C)");
        page.Rows<RecheckedValve>(
            _verdict.Valves,
            new("Valve", v => v.Valve.Id),
            new("Band", v => page.Band(v.Valve.Band)),
            new("Expected", v => page.Clearance(v.Predicted.Mean)),
            new("Found", v => page.Clearance(v.Estimate.Mean)),
            new("95 % interval", v => $"{page.Clearance(v.Estimate.Low)} to {page.Clearance(v.Estimate.High)}", Shown.Wide),
            new("Against the band", v => BandBar.Of(v.Valve.Band, v.Estimate), Shown.Roomy),
            new("In band", v => Page.Chance(v.Estimate.InBand)),
            new("Surprise", v => v.Surprise is { } surprise ? Page.Chance(surprise) : "not read"),
            new("Felt alone", v => v.Alone is { } alone ? Page.Chance(alone) : "not read", Shown.Wide),
            new("Verdict", v => VerdictWords.Of(v.Result)));
        page.Paragraph($"Chance that all are in band: {Page.Chance(_verdict.ChanceAll)}. " + (_verdict.Passes
            ? "Every valve passes."
            : "Not every valve passes: feel again as the cautions say, or plan again with plan --second."));
        page.Heading("Cautions");
        page.Bullets([.. Cautions.OfRecheck(job, _verdict, page.Words), "Turn the engine over by hand twice more and look at the timing marks before the starter is used.", WorkOrder.Deference]);
    }
}
