using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>What the change of a shim at one valve means for the drawer.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="Taken">The shim that came out of the drawer; null where it was bought for it or came out of the engine.</param>
/// <param name="CameOut">The shim that came out of the engine; null where it was handed on to another valve.</param>
public sealed record ShimExchange(string Valve, ThicknessRow? Taken, ThicknessRow? CameOut);

/// <summary>Shims of one thickness that a plan uses from the drawer.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
/// <param name="Count">How many.</param>
/// <param name="Fitted">How many of them are in the engine already.</param>
public sealed record ShimsPromised(double Thickness, string By, int Count, int Fitted);

/// <summary>What a job takes out of the drawer and leaves over.</summary>
public static class DrawerUse
{
    /// <summary>A shim measured anew may differ from its mark by so much, mm; one that differs by more is another shim.</summary>
    private const double SameShim = 0.02;

    /// <summary>What each shim that was fitted means for the drawer.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>One a valve whose shim was changed, and one for each shim that was bought, tried and left over.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<ShimExchange> Exchanges(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        Dictionary<string, FittedRow?> planned = sheet.Plan?.Changes.ToDictionary(c => c.Valve, c => c.To) ?? [];
        HashSet<string> handedOn = [.. planned.Where(p => sheet.ChangeAt(p.Key) is not null).Select(p => p.Value?.FromValve).OfType<string>()];
        return
        [
            .. sheet.Engine.Valves.Select(v => sheet.ChangeAt(v.Id)).OfType<ShimFitted>().Select(f =>
                new ShimExchange(f.Valve, TakenFor(f, planned.GetValueOrDefault(f.Valve)), handedOn.Contains(f.Valve) ? null : f.From)),
            .. LeftOver(sheet),
        ];
    }

    /// <summary>Where a fitted shim came from by the plan; null where there is none, or another shim was fitted.</summary>
    internal static string? SourceOf(JobSheet sheet, ShimFitted fitted) =>
        sheet.Plan?.Changes.FirstOrDefault(c => c.Valve == fitted.Valve)?.To is { } planned && Math.Abs(fitted.To.Thickness - planned.Thickness) <= SameShim
            ? planned.Source
            : null;

    /// <summary>Shims that were bought and came out again in the same work, as after a dry fit.</summary>
    private static IEnumerable<ShimExchange> LeftOver(JobSheet sheet)
    {
        PlanAccepted? plan = null;
        Dictionary<string, ThicknessRow> bought = new(StringComparer.Ordinal);
        foreach (JobEntry entry in sheet.InForce)
        {
            plan = entry.Fact as PlanAccepted ?? plan;
            if (entry.Fact is ShimFitted fitted)
            {
                if (bought.Remove(fitted.Valve, out ThicknessRow? before) && before == fitted.From)
                {
                    yield return new(fitted.Valve, null, before);
                }

                if (plan?.Changes.FirstOrDefault(c => c.Valve == fitted.Valve) is { To: { Source: "buy" } to } && Math.Abs(to.Thickness - fitted.To.Thickness) <= SameShim)
                {
                    bought[fitted.Valve] = fitted.To;
                }
            }
        }
    }

    /// <summary>What an open job's accepted plan holds of the shop's drawer.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The shims; none where no plan holds, the job has shims of its own, or it is closed. Of a discarded job, those that are in the engine.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<ShimsPromised> Promised(JobSheet sheet)
    {
        IReadOnlyList<ShimsPromised> planned = PlannedOf(sheet);
        return sheet.IsDiscarded ? [.. planned.Where(p => p.Fitted > 0).Select(p => p with { Count = p.Fitted })] : planned;
    }

    /// <summary>What an open job's accepted plan uses of the shop's drawer, whether the job is discarded or not.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The shims; none where no plan is accepted, the job has shims of its own, or it is closed.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<ShimsPromised> PlannedOf(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        if (sheet.Closing is not null || sheet.Plan is not { } plan || sheet.Newest<StockStated>() is not { FromShop: true })
        {
            return [];
        }

        HashSet<string> taken = [.. Exchanges(sheet).Where(e => e.Taken is not null).Select(e => e.Valve)];
        return
        [
            .. plan.Changes.Where(c => c.To is { Source: FromDrawer }).GroupBy(c => (c.To!.Thickness, c.To.By))
                .Select(g => new ShimsPromised(g.Key.Thickness, g.Key.By, g.Count(), g.Count(c => taken.Contains(c.Valve)))),
        ];
    }

    private const string FromDrawer = "drawer";

    /// <summary>The planned shim, under the size it lay in the drawer as; what went in without a plan, or instead of the planned one, as itself.</summary>
    private static ThicknessRow? TakenFor(ShimFitted fitted, FittedRow? planned) => planned switch
    {
        null => fitted.To,
        { Source: not FromDrawer } => null,
        _ => Math.Abs(fitted.To.Thickness - planned.Thickness) > SameShim ? fitted.To : new(planned.Thickness, planned.By),
    };
}
