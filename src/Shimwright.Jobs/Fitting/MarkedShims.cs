using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>A shim whose mark and whose size by the micrometer are both known.</summary>
/// <param name="Valve">The valve that it lay at, or went to.</param>
/// <param name="Marked">What its mark says, mm.</param>
/// <param name="Measured">What the micrometer says, mm.</param>
public sealed record MarkedShim(string Valve, double Marked, double Measured)
{
    /// <summary>Further apart than this the two are not of one shim, or one is a slip, mm. Common practice, no source: the usual step of sizes is 0.05.</summary>
    public const double SameShim = 0.04;

    /// <summary>The micrometer's size less the mark, mm.</summary>
    public double Difference => Measured - Marked;

    /// <summary>Whether both can be of one shim.</summary>
    public bool IsOne => Math.Abs(Difference) <= SameShim + 1e-9;
}

/// <summary>Finds the shims of a job of which mark and size are both known.</summary>
public static class MarkedShims
{
    private const string Mark = "marked";
    private const string Micrometer = "micrometer";

    /// <summary>
    /// A shim in the engine that was entered by its mark and then measured, there or as it came out; and one that was planned by
    /// its mark and measured as it went in.
    /// </summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The shims, one of each kind a valve at most.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<MarkedShim> Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        Dictionary<string, FittedRow?> planned = sheet.Plan?.Changes.ToDictionary(c => c.Valve, c => c.To) ?? [];
        return [.. sheet.Engine.Valves.SelectMany(v => new[] { In(sheet, v.Id), Fitted(sheet, v.Id, planned.GetValueOrDefault(v.Id)) }).OfType<MarkedShim>()];
    }

    /// <summary>What lay at the valve.</summary>
    private static MarkedShim? In(JobSheet sheet, string valve)
    {
        List<(double Thickness, string By)> said =
        [
            .. sheet.InForce.Select(e => e.Fact).OfType<ThicknessFound>().Where(f => f.Valve == valve).Select(f => (f.Thickness, f.By)),
        ];
        if (sheet.ChangeAt(valve) is ShimFitted fitted)
        {
            said.Add((fitted.From.Thickness, fitted.From.By));
        }

        // What was said last of each kind holds; the mark was there first, or the shim was measured first and then read.
        return Last(Mark) is { } mark && Last(Micrometer) is { } size ? new(valve, mark, size) : null;

        double? Last(string by) => said.Where(s => s.By == by).Select(s => (double?)s.Thickness).LastOrDefault();
    }

    /// <summary>What went to the valve.</summary>
    private static MarkedShim? Fitted(JobSheet sheet, string valve, FittedRow? planned) =>
        planned is { By: Mark, FromValve: null } && sheet.ChangeAt(valve) is ShimFitted { To: { By: Micrometer } to } ? new(valve, planned.Thickness, to.Thickness) : null;
}
