using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>Where a camshaft can be laid down dry, and what a job goes on with from there.</summary>
public static class DryFits
{
    /// <summary>Whether a group is one whose camshaft is lifted to change shims.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="group">The access group.</param>
    /// <returns>Whether it is.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="engine"/> is null.</exception>
    public static bool IsPossible(Engine engine, string group)
    {
        ArgumentNullException.ThrowIfNull(engine);
        return group != Valve.NoAccess && engine.Valvetrain.HasShims && WorkOrder.LiftsCamshafts(engine.Valvetrain.Adjuster) && engine.AccessGroups.Contains(group);
    }

    /// <summary>The groups that can be fitted dry now: every planned shim is in, and the camshaft is not down for good.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Their names.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<string> Ready(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        if (sheet.Plan is not { } plan || sheet.Closing is not null)
        {
            return [];
        }

        ILookup<string, string> changed = FitSteps.ChangedBy(sheet).ToLookup(v => AccessOf(sheet, v));
        return
        [
            .. JobTerms.Groups(sheet).Where(g => IsPossible(sheet.Engine, g) && changed.Contains(g) && !sheet.IsDone(FitSteps.Refit + g)
                && changed[g].All(v => sheet.ChangeAt(v) is not null) && plan.Changes.All(c => AccessOf(sheet, c.Valve) != g || !sheet.IsOwed(c))),
        ];
    }

    /// <summary>Whether a group lies dry: something was felt there since its shims went in.</summary>
    /// <param name="sheet">The job.</param>
    /// <param name="group">The access group.</param>
    /// <returns>Whether it does.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static bool IsFelt(JobSheet sheet, string group)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return sheet.Engine.Under(group).Any(v => sheet.LastReading(SheetPart.DryFit, v.Id) is not null);
    }

    /// <summary>
    /// The plan that carries a job on from its dry fits: what stays is in it as it was planned, what goes with the shim that is in there now,
    /// what was kept as it is.
    /// </summary>
    /// <param name="sheet">The job.</param>
    /// <param name="next">The plan from what was felt dry.</param>
    /// <returns>The plan to be accepted.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> or <paramref name="next"/> is null.</exception>
    public static PlanAccepted CarryOn(JobSheet sheet, PlanAccepted next)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(next);
        Dictionary<string, PlanRow> before = sheet.Plan?.Valves.ToDictionary(r => r.Valve, StringComparer.Ordinal) ?? [];
        PlanRow[] rows = [.. next.Valves.Select(row => row.Action == "keep" && before.GetValueOrDefault(row.Valve) is { } stays && stays.Action != "keep"
            ? stays with { Estimate = row.Estimate, Working = row.Working, After = new(row.Estimate.Mean, row.Estimate.Sd, row.Estimate.Low, row.Estimate.High), Chance = row.Chance }
            : row)];
        HashSet<string> groups = [.. sheet.Plan?.Opened ?? [], .. next.Opened];
        return next with
        {
            Opened = [.. JobTerms.Groups(sheet).Where(groups.Contains)],
            Valves = rows,
            Bought = [.. rows.Where(r => r.To is { Source: "buy" }).GroupBy(r => r.To!.Thickness).OrderBy(g => g.Key).Select(g => new BoughtRow(g.Key, g.Count()))],
            CarriesOn = true,
        };
    }

    /// <summary>The lines of a plan made at a dry fit whose shim goes.</summary>
    /// <param name="sheet">The job.</param>
    /// <param name="plan">The plan.</param>
    /// <returns>The lines.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> or <paramref name="plan"/> is null.</exception>
    public static IReadOnlyList<PlanRow> Going(JobSheet sheet, PlanAccepted plan)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(plan);
        return [.. plan.Changes.Where(r => sheet.ChangeAt(r.Valve) is not ShimFitted { To: var now } || now.Thickness != r.To?.Thickness)];
    }

    private static string AccessOf(JobSheet sheet, string valve) => sheet.Engine.Valves.First(v => v.Id == valve).Access;
}
