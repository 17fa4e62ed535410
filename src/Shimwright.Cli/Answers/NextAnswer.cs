using Shimwright.Cli.Running;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Answers;

/// <summary>What next prints.</summary>
internal sealed class NextAnswer(Job job) : IJobAnswer
{
    private readonly NextResult _result = NextResult.Of(job);

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(_result, indented);

    public void Show(Page page)
    {
        page.OwnCautions(Cautions.OfCheck(job, words: page.Words));
        page.Heading($"What to do next at {job.Engine.Name}");
        if (_result.PlanNow)
        {
            page.Paragraph(NextWords.PlanNow);
        }
        else
        {
            page.Rows<NextRow>(
                _result.Next,
                new("Do", n => NextWords.Of(n, page.Words)),
                new("Saves (min)", n => Page.Minutes(n.Saves)),
                new("Takes (min)", n => Page.Minutes(n.Takes)));
        }

        page.Bullets(
        [
            $"Best plan so far: {Page.Minutes(_result.Minutes)} min, including the expected cost of rework.",
            $"{Page.FirstTime(job, _result.Stranded is not null)} under it: {Page.Chance(_result.ChanceAll)}.",
            .. _result.Stranded is { } stranded ? [stranded] : Array.Empty<string>(),
            .. _result.Cautions ?? [],
        ]);
        if (_result.Next.Any(n => n.Do == "dryFit"))
        {
            page.Heading("Cautions");
            page.Bullets(WorkOrder.DryFit);
        }
    }
}
