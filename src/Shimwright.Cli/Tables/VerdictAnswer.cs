using Shimwright.Cli.Commands;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Spectre.Console;

namespace Shimwright.Cli.Tables;

/// <summary>What verdict prints.</summary>
internal sealed class VerdictAnswer(Job job) : IJobAnswer
{
    private readonly VerdictResult _result = VerdictResult.Of(job);

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(_result, indented);

    public void Show(Page page)
    {
        page.Heading($"Re-check of {job.Engine.Name} ({page.UnitName}, at 20 degrees C)");
        string[] columns = page.IsWide
            ? ["Valve", "Band", "Expected", "Found", "95 % interval", "Against the band", "In band", "Surprise", "Verdict"]
            : ["Valve", "Band", "Expected", "Found", "In band", "Surprise", "Verdict"];
        Table table = Page.Table(columns);
        foreach ((int v, VerdictRow row) in _result.Valves.Index())
        {
            ClearanceBand band = job.Engine.Valves[v].Band;
            EstimateRow found = row.Estimate;
            Dictionary<string, string> cells = new()
            {
                ["Valve"] = row.Valve,
                ["Band"] = page.Band(band),
                ["Expected"] = page.Clearance(row.Predicted.Mean),
                ["Found"] = page.Clearance(found.Mean),
                ["95 % interval"] = $"{page.Clearance(found.Low)} to {page.Clearance(found.High)}",
                ["Against the band"] = BandBar.Of(band, new ClearanceEstimate(found.Mean, found.Sd, found.Low, found.High, found.InBand)),
                ["In band"] = Page.Chance(found.InBand),
                ["Surprise"] = row.Surprise is { } surprise ? Page.Chance(surprise) : "not read",
                ["Verdict"] = found.InBand >= RecheckedValve.PassFloor ? "passes" : "does not pass",
            };
            table.AddRow(columns.Select(c => new Text(cells[c])));
        }

        page.Console.Write(table);
        page.Paragraph(_result.Pass
            ? "Every valve passes."
            : "Not every valve passes: plan again from these readings before closing.");
        page.Heading("Cautions");
        page.Bullets([.. VerdictResult.Of(job, page.Words).Cautions, "Turn the engine over by hand twice more and look at the timing marks before the starter is used.", WorkOrder.Deference]);
    }
}
