using System.Globalization;
using Shimwright.Cli.Commands;
using Shimwright.Domain.Engines;
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
        string[] columns = page.IsWide
            ? ["Valve", "Band", "Estimate", "95 % interval", "Against the band", "In band", "Status"]
            : ["Valve", "Band", "Estimate", "95 % interval", "In band", "Status"];
        Table table = Page.Table(columns);
        foreach ((int v, ValveEstimate row) in _result.Valves.Index())
        {
            ClearanceBand band = job.Engine.Valves[v].Band;
            Dictionary<string, string> cells = new()
            {
                ["Valve"] = row.Valve,
                ["Band"] = page.Band(band),
                ["Estimate"] = page.Clearance(row.Mean),
                ["95 % interval"] = $"{page.Clearance(row.Low)} to {page.Clearance(row.High)}",
                ["Against the band"] = BandBar.Of(band, new ClearanceEstimate(row.Mean, row.Sd, row.Low, row.High, row.InBand)),
                ["In band"] = Page.Chance(row.InBand),
                ["Status"] = row.Status,
            };
            table.AddRow(columns.Select(c => new Text(cells[c])));
        }

        page.Console.Write(table);
        page.Paragraph(_result.NextBlade is { } next
            ? $"Try next: the {page.Clearance(next.Blade)} blade at {next.Valve}; it is expected to settle most."
            : "No blade in the set would settle more.");
        if (_result.OneCause is { } cause && cause != 0.5)
        {
            page.Paragraph(string.Create(
                CultureInfo.InvariantCulture,
                $"How likely it is that one cause, such as dust or long use, moved both sides: {cause:0.00} (0.50 is where the readings say nothing)."));
        }

        if (_result.Cautions.Count > 0)
        {
            page.Heading("Cautions");
            page.Bullets(_result.Cautions);
        }
    }
}
