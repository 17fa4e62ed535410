using Shimwright.Cli.Commands;
using Shimwright.Domain.Readings;
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
        Table table = new Table().SimpleBorder().AddColumns(
            "Valve", "Band", "Expected", "Found", "95 % interval", "Against the band", "In band", "Surprise", "Verdict");
        foreach ((int v, VerdictRow row) in _result.Valves.Index())
        {
            var band = job.Engine.Valves[v].Band;
            EstimateRow found = row.Estimate;
            var estimate = new ClearanceEstimate(found.Mean, found.Sd, found.Low, found.High, found.InBand);
            table.AddRow(
                new Text(row.Valve),
                new Text($"{page.Clearance(band.Low)}-{page.Clearance(band.High)}"),
                new Text(page.Clearance(row.Predicted.Mean)),
                new Text(page.Clearance(found.Mean)),
                new Text($"{page.Clearance(found.Low)} to {page.Clearance(found.High)}"),
                new Text(BandBar.Of(band, estimate)),
                new Text(Page.Chance(found.InBand)),
                new Text(row.Surprise is { } surprise ? Page.Chance(surprise) : "not read"),
                new Text(found.InBand >= Domain.Rechecking.RecheckedValve.PassFloor ? "passes" : "does not pass"));
        }

        page.Console.Write(table);
        page.Paragraph(_result.Pass
            ? "Every valve passes."
            : "Not every valve passes: plan again from these readings before closing.");
        page.Heading("Cautions");
        page.Bullets([.. _result.Cautions, "Turn the engine over by hand twice more and look at the timing marks before the starter is used.", WorkOrder.Deference]);
    }
}
