using System.Globalization;
using Shimwright.Domain.CrankStops;
using Shimwright.Jobs.Results;

namespace Shimwright.Pages.Pictures;

/// <summary>A stretch of the cycle in which a valve is off its heel, ramp included; crank degrees, to at most 720 after from.</summary>
public readonly record struct OffStretch(double From, double To)
{
    /// <summary>The stretch as a person reads it: the end counted from 0 again where it passes 720.</summary>
    public string Words => string.Create(CultureInfo.InvariantCulture, $"{From:0.#}° to {CrankAngle.Wrap(To):0.#}°");
}

/// <summary>One valve's line of the picture.</summary>
/// <param name="Valve">Its id.</param>
/// <param name="Off">Where it is off its heel.</param>
/// <param name="Stop">The stop at which it is read, from 1.</param>
/// <param name="Angle">Where that is, crank degrees.</param>
/// <param name="Slack">By how much the crank may be off there, degrees.</param>
public sealed record CycleRow(string Valve, IReadOnlyList<OffStretch> Off, int Stop, double Angle, double Slack);

/// <summary>A place on the cycle with a word: a cylinder's compression TDC, or a further mark.</summary>
public sealed record CycleMark(double Angle, string Word);

/// <summary>What the picture of the cycle shows.</summary>
public sealed record CycleChart(IReadOnlyList<CycleRow> Rows, IReadOnlyList<CycleMark> Marks, IReadOnlyList<double> Stops)
{
    private const double Same = 1e-6;

    public static CycleChart Of(CrankLayout layout, StopsResult stops)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(stops);
        return new(
            [.. layout.Valves.Select(v => RowOf(v, layout, stops))],
            [.. MarksOf(layout)],
            [.. stops.Stops.Select(s => s.CrankDeg)]);
    }

    private static CycleRow RowOf(TimedValve valve, CrankLayout layout, StopsResult stops)
    {
        (int index, StopRow stop) = stops.Stops.Index().First(s => s.Item.Valves.Any(v => v.Valve == valve.Id));
        return new(
            valve.Id, OffOf(layout.HeelOf(valve)), index + 1, stop.CrankDeg, stop.Valves.First(v => v.Valve == valve.Id).SlackDeg);
    }

    /// <summary>What the heel leaves of the cycle.</summary>
    private static OffStretch[] OffOf(IReadOnlyList<HeelArc> heel) =>
    [
        .. heel.Select((arc, k) =>
        {
            double from = CrankAngle.Wrap(arc.From + arc.Length);
            double length = CrankAngle.Turn(from, heel[(k + 1) % heel.Count].From);
            return new OffStretch(from, from + length);
        }).Where(o => o.To > o.From).OrderBy(o => o.From),
    ];

    private static IEnumerable<CycleMark> MarksOf(CrankLayout layout)
    {
        List<CycleMark> marks = [.. layout.FiringOrder.GroupBy(c => Math.Round(layout.FiresAt(c), 6))
            .Select(g => new CycleMark(g.Key, string.Join("+", g.Order().Select(c => c.ToString(CultureInfo.InvariantCulture)))))];
        IEnumerable<CycleMark> further = layout.Marks.Select(CrankAngle.Wrap)
            .Where(m => !marks.Exists(k => Math.Abs(k.Angle - m) < Same)).Distinct().Select(m => new CycleMark(m, "m"));
        return [.. marks.Concat(further).OrderBy(m => m.Angle)];
    }
}
