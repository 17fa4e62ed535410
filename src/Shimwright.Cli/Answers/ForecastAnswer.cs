using System.Globalization;
using Shimwright.Cli.Running;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Answers;

/// <summary>What forecast prints.</summary>
internal sealed class ForecastAnswer(Job job) : IJobAnswer
{
    /// <summary>Below it a chance is written as a power of ten.</summary>
    private const double Rare = 0.001;

    private readonly ForecastResult _result = ForecastResult.Of(job);

    public int Exit => ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(_result, indented);

    public void Show(Page page)
    {
        page.Heading($"Forecast for {job.Engine.Name} ({page.UnitName}; clock in {Unit})");
        page.Rows<ForecastRow>(
            _result.Valves,
            new("Valve", r => r.Valve),
            new("Loss an interval", r => $"{page.Clearance(r.LossPerInterval)} +/- {page.Clearance(r.SdLossPerInterval)}"),
            new("Out within an interval", r => Page.Chance(r.ChanceOutAtInterval)),
            new("Room left", r => r.RoomLeft is { } room ? page.Shim(room.Mm) : "-"),
            new($"used up after ({Unit})", r => r.RoomLeft?.Clock is { } clock ? Whole(clock) : "-", Shown.Wide),
            new("Taken up since first record", r => r.Recession is { } recession ? page.Clearance(recession.Mm) : "-", Shown.Wide));
        page.Paragraph(When());
        if (_result.Signs.Count > 0)
        {
            page.Heading("Signs");
            page.Bullets(_result.Signs.Select(s => $"{s.Sign} {s.LookAt} (Evidence {s.Evidence.ToString(s.Evidence < Rare ? "0.##E+0" : "0.000", CultureInfo.InvariantCulture)}.)"));
            page.Paragraph("Evidence is how often chance alone would look so, or stranger; for room nearly used it is the chance of it.");
        }

        page.Heading("How to read this");
        page.Bullets(
        [
            "Loss is clearance taken up in one interval of the card; +/- is one standard deviation. Below zero the valve gains clearance.",
            "Room left is the thickness above the thinnest shim in the drawer or the shop. When it is used up, valve and seat are due, not a shim.",
            WearWords.Limits,
            WorkOrder.Deference,
        ]);
    }

    private string Unit => job.Wear!.CountsKilometres ? "km" : "hours";

    private string When()
    {
        double left = _result.CheckBy - job.Clock;
        string risk = string.Create(CultureInfo.InvariantCulture, $"{_result.Risk:0.00}");
        return left switch
        {
            0 => $"Check now: the chance that a valve is outside its band has reached {risk} already.",
            _ when left >= job.Wear!.Interval => $"Check by {Whole(_result.CheckBy)} {Unit}, the maker's interval from here.",
            _ => $"Check by {Whole(_result.CheckBy)} {Unit}, {Whole(left)} from here: then the chance of a valve outside its band reaches {risk}.",
        };
    }

    private static string Whole(double clock) => clock.ToString("0.#", CultureInfo.InvariantCulture);
}
