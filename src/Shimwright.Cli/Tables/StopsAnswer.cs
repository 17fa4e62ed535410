using System.Globalization;
using Shimwright.Cli.Commands;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Spectre.Console;

namespace Shimwright.Cli.Tables;

/// <summary>What stops prints.</summary>
internal sealed class StopsAnswer(Job job) : IJobAnswer
{
    private readonly StopsResult _result = StopsResult.Of(job);

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(_result, indented);

    public void Show(Page page)
    {
        page.Heading($"Crank stops for {job.Engine.Name}");
        Table table = new Table().SimpleBorder().AddColumns("Stop", "Crank", "What to do", "Check here (slack in crank degrees)");
        foreach ((int s, StopRow stop) in _result.Stops.Index())
        {
            table.AddRow(
                new Text((s + 1).ToString(CultureInfo.InvariantCulture)),
                new Text(Degrees(stop.CrankDeg)),
                new Text(stop.Words),
                new Text(string.Join(", ", stop.Valves.Select(v => $"{v.Valve} ({Degrees(v.SlackDeg)})"))));
        }

        page.Console.Write(table);
        if (_result.Rules.Count > 0)
        {
            page.Heading("Rules of thumb that hold for this layout");
            page.Bullets(_result.Rules);
        }

        page.Heading("Cautions");
        page.Bullets(
        [
            "Crank degrees count from cylinder 1's compression TDC over the whole cycle of 720. At its other TDC, between exhaust and intake, cylinder 1's valves are both off their heels.",
            "Turn only by the bolt the manual names and only in running direction; overshot, go back 30 degrees and come again.",
            WorkOrder.Deference,
        ]);
    }

    private static string Degrees(double degrees) => degrees.ToString("0.#", CultureInfo.InvariantCulture);
}
