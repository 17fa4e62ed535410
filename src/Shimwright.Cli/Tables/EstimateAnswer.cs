using System.Globalization;
using Shimwright.Cli.Commands;
using Shimwright.Domain.Readings;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;
using Spectre.Console;

namespace Shimwright.Cli.Tables;

/// <summary>What estimate prints.</summary>
internal sealed class EstimateAnswer(Job job) : IJobAnswer
{
    private readonly EstimateResult _result = EstimateResult.Of(job);

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(_result, indented);

    public void Show(Page page)
    {
        page.Heading($"Clearances of {job.Engine.Name} ({page.UnitName}, at 20 degrees C)");
        Table table = new Table().SimpleBorder().AddColumns("Valve", "Band", "Estimate", "95 % interval", "Against the band", "In band", "Status");
        table.Columns[5].RightAligned();
        foreach ((int v, ValveEstimate row) in _result.Valves.Index())
        {
            var band = job.Engine.Valves[v].Band;
            var estimate = new ClearanceEstimate(row.Mean, row.Sd, row.Low, row.High, row.InBand);
            table.AddRow(
                new Text(row.Valve),
                new Text($"{page.Clearance(band.Low)}-{page.Clearance(band.High)}"),
                new Text(page.Clearance(row.Mean)),
                new Text($"{page.Clearance(row.Low)} to {page.Clearance(row.High)}"),
                new Text(BandBar.Of(band, estimate)),
                new Text(Page.Chance(row.InBand)),
                new Text(row.Status));
        }

        page.Console.Write(table);
        page.Paragraph(_result.NextBlade is { } next
            ? $"Try next: the {page.Clearance(next.Blade)} blade at {next.Valve}; it is expected to settle most."
            : "No blade in the set would settle more.");
        if (_result.OneCause is { } cause && cause != 0.5)
        {
            page.Paragraph(string.Create(
                CultureInfo.InvariantCulture, $"One cause behind both sides, rather than each its own: weight {cause:0.00}."));
        }

        if (_result.Cautions.Count > 0)
        {
            page.Heading("Cautions");
            page.Bullets(_result.Cautions);
        }
    }
}
