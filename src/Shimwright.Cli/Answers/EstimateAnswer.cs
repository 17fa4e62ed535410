using System.Globalization;
using Shimwright.Cli.Running;
using Shimwright.Domain.Engines;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Answers;

/// <summary>What estimate prints.</summary>
internal sealed class EstimateAnswer(Job job) : IJobAnswer
{
    private readonly EstimateResult _result = EstimateResult.Of(job);

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(_result, indented);

    public void Show(Page page)
    {
        page.Heading($"Clearances of {job.Engine.Name} ({page.UnitName}, at 20 degrees C)");
        page.Rows<(ClearanceBand Band, ValveEstimate Of)>(
            job.Engine.Valves.Select(v => v.Band).Zip(_result.Valves),
            new("Valve", r => r.Of.Valve),
            new("Band", r => page.Band(r.Band)),
            new("Estimate", r => page.Clearance(r.Of.Mean)),
            new("95 % interval", r => $"{page.Clearance(r.Of.Low)} to {page.Clearance(r.Of.High)}"),
            new("Against the band", r => BandBar.Of(r.Band, new(r.Of.Mean, r.Of.Sd, r.Of.Low, r.Of.High, r.Of.InBand)), Shown.Roomy),
            new("Reading alone", r => r.Of.Reading is { } alone ? $"{page.Clearance(alone.Low)} to {page.Clearance(alone.High)}" : "not read", Shown.Wide),
            new("In band", r => Page.Chance(r.Of.InBand)),
            new("Status", r => r.Of.Status));
        page.Paragraph(_result.NextBlade is { } next
            ? $"Try next: the {page.Clearance(next.Blade)} blade at {next.Valve}; it is expected to settle most."
            : "No blade in the set would settle more.");
        if (_result.OneCause is { } cause && cause != 0.5)
        {
            page.Paragraph(string.Create(
                CultureInfo.InvariantCulture,
                $"How likely it is that one cause, such as dust or long use, moved both sides: {cause:0.00} (0.50 is where the readings say nothing)."));
        }

        foreach (DepthRow depth in _result.Depths ?? [])
        {
            DepthTable.Write(page, depth);
        }

        if (_result.Cautions.Count > 0)
        {
            page.Heading("Cautions");
            page.Bullets(_result.Cautions);
        }
    }
}
