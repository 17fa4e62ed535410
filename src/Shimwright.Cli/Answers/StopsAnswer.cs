using System.Globalization;
using Shimwright.Cli.Running;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Spectre.Console;

namespace Shimwright.Cli.Answers;

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
            $"Crank degrees count from {StopWords.Datum(job.ToLayout()).TrimEnd(',')} over the whole cycle of 720. A cylinder comes to TDC twice in it: between exhaust and intake its own valves are usually off their heels.",
            "Slack is how far the crank may be off, either way, before the cam's ramp reaches the valve.",
            WorkOrder.Isolate,
            WorkOrder.TurnByHand,
            WorkOrder.Deference,
        ]);
    }

    private static string Degrees(double degrees) => degrees.ToString("0.#", CultureInfo.InvariantCulture);
}
