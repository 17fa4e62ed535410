using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs.Fitting;

/// <summary>A valve on the tick list: what the plan says, and what was done.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Move">Its turn by the plan; null where it was changed without one.</param>
/// <param name="Done">What was done, or null.</param>
/// <param name="Entry">The entry that says so, or null.</param>
public sealed record FitValve(string Valve, ShimMove? Move, ChangeFact? Done, JobEntry? Entry)
{
    /// <summary>Whether what was done is another thing than what the plan says.</summary>
    public bool IsOther => (Done, Move?.Row) switch
    {
        (ShimFitted fitted, { To: { } to }) => fitted.To.Thickness != to.Thickness,
        (ScrewTurned turned, { Turns: { } turns }) => Math.Abs(turned.Turns - turns) > 1e-9,
        _ => false,
    };
}

/// <summary>Valves that are changed one after the other: those under one part that is lifted, or all, where shims go from one part to another.</summary>
/// <param name="Name">The access group; blank for all.</param>
/// <param name="Title">What the page calls them.</param>
/// <param name="Valves">The valves, in working order.</param>
public sealed record FitGroup(string Name, string Title, IReadOnlyList<FitValve> Valves)
{
    /// <summary>What is planned and not done.</summary>
    public IEnumerable<ShimMove> Planned => Valves.Where(v => v.Done is null).Select(v => v.Move).OfType<ShimMove>();

    /// <summary>How many of them there are.</summary>
    public int Open => Planned.Count();
}

/// <summary>A step on the tick list.</summary>
public sealed record FitTick(FitStep Step, bool Done);

/// <summary>The tick list of a job, in working order.</summary>
public sealed class FitView
{
    /// <summary>What the form says that ticks all steps before the valves.</summary>
    public const string AllBefore = "*before";

    private FitView(JobSheet sheet)
    {
        FitTick[] ticks = [.. FitSteps.For(sheet).Select(s => new FitTick(s, sheet.IsDone(s.Name)))];
        Before = [.. ticks.Where(t => !t.Step.After)];
        After = [.. ticks.Where(t => t.Step.After)];
        IReadOnlyList<ShimMove> moves = sheet.Plan is { } plan ? ShimMoves.InOrder(plan) : [];
        string[] planned = [.. moves.Select(m => m.Row.Valve)];
        Valves =
        [
            .. moves.Select(m => At(sheet, m.Row.Valve, m)),
            .. FitSteps.ChangedBy(sheet).Except(planned).Select(v => At(sheet, v, null)),
        ];
        Done = ticks.Count(t => t.Done) + Valves.Count(v => v.Done is not null);
        Of = ticks.Length + Valves.Count;
        HandedOn = moves.Any(m => m.MustWaitFor is not null);
        string AccessOf(string valve) => sheet.Engine.Valves.First(v => v.Id == valve).Access;
        bool isMixed = moves.Any(m => m.MustWaitFor is { } giver && AccessOf(giver) != AccessOf(m.Row.Valve));
        Groups = isMixed || Valves.Count == 0
            ? [new("", "Valves", Valves)]
            : [.. Valves.GroupBy(v => AccessOf(v.Valve)).Select(g => new FitGroup(g.Key, char.ToUpperInvariant(g.Key[0]) + g.Key[1..], [.. g]))];
    }

    /// <summary>The steps before the valves are changed.</summary>
    public IReadOnlyList<FitTick> Before { get; }

    /// <summary>The valves, in an order in which shims can be handed on.</summary>
    public IReadOnlyList<FitValve> Valves { get; }

    /// <summary>The same valves as they are gone through.</summary>
    public IReadOnlyList<FitGroup> Groups { get; }

    /// <summary>The steps after the valves were changed.</summary>
    public IReadOnlyList<FitTick> After { get; }

    /// <summary>How many lines are done.</summary>
    public int Done { get; }

    /// <summary>How many lines there are.</summary>
    public int Of { get; }

    /// <summary>Whether anything is lifted to reach the adjusters.</summary>
    public bool IsLifting => Before.Any(t => t.Step.Name.StartsWith(FitSteps.Open, StringComparison.Ordinal));

    /// <summary>Whether a shim goes from one valve to another.</summary>
    public bool HandedOn { get; }

    /// <summary>The first line that is not done: a step's name or a valve's id.</summary>
    public string? Next => Before.FirstOrDefault(t => !t.Done)?.Step.Name ?? Valves.FirstOrDefault(v => v.Done is null)?.Valve ?? After.FirstOrDefault(t => !t.Done)?.Step.Name;

    /// <summary>The tick list of a job.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The list.</returns>
    public static FitView For(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return new(sheet);
    }

    /// <summary>What to mind about the shims of a valve that is still to be changed, in words; nothing where none is handed on.</summary>
    /// <param name="valve">The valve.</param>
    /// <returns>One or two sentences.</returns>
    public string Mind(FitValve valve)
    {
        ArgumentNullException.ThrowIfNull(valve);
        if (valve is not { Done: null, Move: { } move })
        {
            return "";
        }

        string aside = move.LaidAsideFor is { } taker && !IsChanged(taker) ? $"Put the {valve.Valve} shim aside and label it. It goes to {taker}." : "";
        string wait = move.MustWaitFor is { } giver && !IsChanged(giver) ? $"The shim to fit comes out of {giver}. Take that out first." : "";
        return string.Join(" ", new[] { aside, wait }.Where(s => s.Length > 0));
    }

    private bool IsChanged(string valve) => Valves.Any(v => v.Valve == valve && v.Done is not null);

    private static FitValve At(JobSheet sheet, string valve, ShimMove? move) => new(
        valve, move, move is not null && sheet.IsOwed(move.Row) ? null : sheet.ChangeAt(valve), sheet.InForce.LastOrDefault(e => e.Fact is ChangeFact change && change.Valve == valve));
}
