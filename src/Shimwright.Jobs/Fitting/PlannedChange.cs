using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Fitting;

/// <summary>What is done at a valve where it goes by the plan.</summary>
public static class PlannedChange
{
    /// <summary>The change that a line of a plan asks for.</summary>
    /// <param name="row">The line of a valve that is changed.</param>
    /// <returns>The change, as a fact.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="row"/> is null.</exception>
    /// <exception cref="ArgumentException">The plan leaves the valve alone.</exception>
    public static ChangeFact Of(PlanRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row switch
        {
            { Turns: { } turns } => new ScrewTurned(row.Valve, turns),
            { From: { } from, To: { } to } => new ShimFitted(row.Valve, from, new ThicknessRow(to.Thickness, to.By)),
            _ => throw new ArgumentException($"The plan leaves {row.Valve} alone.", nameof(row)),
        };
    }
}
