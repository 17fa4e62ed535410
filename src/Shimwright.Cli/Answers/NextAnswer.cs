using Shimwright.Cli.Running;
using Shimwright.Domain.Advice;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Wording;

namespace Shimwright.Cli.Answers;

/// <summary>What next prints.</summary>
internal sealed class NextAnswer(Job job) : IJobAnswer
{
    private readonly NextThings _advice = Advisor.For(job.ToAdviceRequest());

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(NextResult.Of(job, _advice), indented);

    public void Show(Page page)
    {
        page.Heading($"What to do next at {job.Engine.Name}");
        if (_advice.PlanNow)
        {
            page.Paragraph(NextWords.PlanNow);
        }
        else
        {
            page.Rows<AdvisedAction>(
                _advice.Next,
                new("Do", n => NextWords.Of(n, job.Engine, page.Words)),
                new("Saves (min)", n => Page.Minutes(n.Saves)),
                new("Takes (min)", n => Page.Minutes(n.Takes)));
        }

        page.Bullets(
        [
            $"As things stand, the best plan comes to {Page.Minutes(_advice.Minutes)} min, rework counted.",
            $"Chance that all pass the first time under it: {Page.Chance(_advice.Plan.ChanceAll)}.",
        ]);
    }
}
