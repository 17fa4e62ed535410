using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Jobs.Planning;

/// <summary>What the plan page shows of a job: the plans on offer, the one that was accepted, and whether it still stands on what was read.</summary>
public sealed class PlanView
{
    private PlanView(JobSheet sheet, IReadOnlyList<PlanProposal> offers, int? asked)
    {
        Offers = offers;
        JobEntry? entry = sheet.Plan is null ? null : sheet.InForce.Last(e => e.Fact is PlanAccepted);
        Accepted = sheet.Plan;
        AcceptedAt = entry?.At;
        string? mark = Accepted is null ? null : PlanProposal.FingerprintOf(Accepted);
        AcceptedOffer = offers.FirstOrDefault(o => o.Fingerprint == mark);
        Since = entry is null || AcceptedOffer is not null ? [] : [.. sheet.Entries.Where(e => e.Number > entry.Number && (e.Fact.BearsOnThePlan || e.Fact is Undone))];
        WorkHasBegun = sheet.Engine.Valves.Any(v => sheet.ChangeAt(v.Id) is not null);
        Shown = offers.FirstOrDefault(o => o.Number == asked) ?? AcceptedOffer ?? offers.FirstOrDefault(o => o.IsAdvised);
    }

    /// <summary>The plans on offer, least work first.</summary>
    public IReadOnlyList<PlanProposal> Offers { get; }

    /// <summary>The plan of the page: the one asked for, else the accepted one, else the advised one.</summary>
    public PlanProposal? Shown { get; }

    /// <summary>The plan that was accepted, word for word.</summary>
    public PlanAccepted? Accepted { get; }

    /// <summary>When it was accepted, UTC.</summary>
    public DateTime? AcceptedAt { get; }

    /// <summary>The plan on offer that is the accepted one; null where what was read since makes another plan of it.</summary>
    public PlanProposal? AcceptedOffer { get; }

    /// <summary>What was added since a plan was accepted that no longer stands.</summary>
    public IReadOnlyList<JobEntry> Since { get; }

    /// <summary>Whether some valve was changed already, so that the plan can no longer be exchanged.</summary>
    public bool WorkHasBegun { get; }

    /// <summary>Below this chance that all pass a plan is not worth lifting a camshaft for: something is better measured first. Common practice, no source.</summary>
    private const double LeastChance = 0.1;

    /// <summary>How many of the most doubtful valves are named.</summary>
    private const int MostNamed = 4;

    /// <summary>Whether a plan is likely enough to be worth starting.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>Whether it is.</returns>
    public static bool IsWorthStarting(PlanAccepted plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan.ChanceAll >= LeastChance || !plan.Changes.Any();
    }

    /// <summary>The valves on which a plan is most likely to fail, the worst first.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>Their lines.</returns>
    public static IReadOnlyList<PlanRow> Doubtful(PlanAccepted plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. plan.Valves.OrderBy(v => v.Chance ?? 0).Take(MostNamed)];
    }

    /// <summary>Whether the accepted plan rests on readings that are no longer the last ones.</summary>
    public bool IsOutdated => Accepted is not null && AcceptedOffer is null && Offers.Count > 0;

    /// <summary>Whether the plan that is shown can be accepted.</summary>
    public bool CanAccept => Shown is not null && !WorkHasBegun && (Accepted is null || Shown != AcceptedOffer);

    public IReadOnlyList<ChancePoint> Points =>
        [.. Offers.Select(o => new ChancePoint(o.Number, o.Plan.Minutes, o.Plan.ChanceAll, o.IsAdvised, o == Shown))];

    /// <summary>The view of a job.</summary>
    /// <param name="sheet">The job.</param>
    /// <param name="answer">What is computed for it.</param>
    /// <param name="asked">The number of the plan asked for.</param>
    internal static PlanView Of(JobSheet sheet, JobAnswer answer, int? asked) =>
        new(sheet, answer.Plan is { } plan ? PlanProposal.AllOf(plan) : [], asked);

    /// <summary>What is wanting before there can be a plan: the valves without a reading and without a shim, and whatever else there is.</summary>
    public static PlanWants Wants(JobSheet sheet, IReadOnlyList<JobProblem> needs) => new(
        [.. sheet.Engine.Valves.Select(v => v.Id).Where(v => !sheet.IsRead(v))],
        sheet.Engine.Valvetrain.HasShims ? [.. sheet.Engine.Valves.Select(v => v.Id).Where(v => sheet.FoundAt(v) is null)] : [],
        [.. needs.Where(n => n.Path is not ("$.check.readings" or "$.check.fitted"))]);
}

/// <summary>What is wanting before there can be a plan.</summary>
/// <param name="Readings">Valves without a reading.</param>
/// <param name="Shims">Valves whose shim is not known.</param>
/// <param name="Others">Anything else.</param>
public sealed record PlanWants(IReadOnlyList<string> Readings, IReadOnlyList<string> Shims, IReadOnlyList<JobProblem> Others)
{
    public bool IsEmpty => Readings.Count == 0 && Shims.Count == 0 && Others.Count == 0;
}
