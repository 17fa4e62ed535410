using Shimwright.Domain.Engines;

namespace Shimwright.Jobs.Sheets;

/// <summary>Where a job stands.</summary>
public enum JobStage
{
    /// <summary>Some valve has no reading.</summary>
    Measure,

    /// <summary>Some valve's shim is not known.</summary>
    Shims,

    /// <summary>No plan has been accepted.</summary>
    Plan,

    /// <summary>Something of the plan is not done.</summary>
    Fit,

    /// <summary>Some changed valve has not been read again.</summary>
    Recheck,

    /// <summary>All is done but the closing.</summary>
    Close,

    /// <summary>The job is closed.</summary>
    Closed,
}

/// <summary>A job as its facts have left it: the setup with every fact laid over it in order, those that were undone left out.</summary>
public sealed class JobSheet
{
    private readonly List<JobEntry> _inForce;

    private JobSheet(JobSetup setup, IReadOnlyList<JobEntry> entries)
    {
        Setup = setup;
        Entries = entries;
        _inForce = InForceOf(entries);
    }

    /// <summary>What the job started from.</summary>
    public JobSetup Setup { get; }

    /// <summary>All entries, in order.</summary>
    public IReadOnlyList<JobEntry> Entries { get; }

    /// <summary>The entries that still count, in order.</summary>
    public IReadOnlyList<JobEntry> InForce => _inForce;

    /// <summary>The number of the last entry; 0 on an empty sheet.</summary>
    public int Last => Entries.Count == 0 ? 0 : Entries[^1].Number;

    /// <summary>The engine.</summary>
    public Engine Engine => Setup.Card.Engine;

    /// <summary>Clock and temperature of the check.</summary>
    public CheckStated Check => Newest<CheckStated>() ?? new(Setup.Start.Clock, Setup.Start.Check.Thermal.Temperature);

    /// <summary>Temperature of the re-check, °C.</summary>
    public double RecheckTemperature => Newest<RecheckStated>()?.TemperatureC ?? Check.TemperatureC;

    /// <summary>What is suspected to have moved the valves; null where nobody has said.</summary>
    public SuspectedCause? Suspected => Newest<LossSuspected>() is { } loss ? SuspectedCause.Of(loss.Cause) : null;

    /// <summary>The plan that holds, or null.</summary>
    public PlanAccepted? Plan => NewestOf("plan") as PlanAccepted;

    /// <summary>How the job was closed; null while it is open.</summary>
    public JobClosed? Closing => NewestOf("closed") as JobClosed;

    /// <summary>The notes, in order.</summary>
    public IEnumerable<JobEntry> Notes => _inForce.Where(e => e.Fact is JobNoted);

    /// <summary>The newest entry of a valve in a round that can be taken back, or null.</summary>
    /// <param name="part">Check or re-check.</param>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The entry.</returns>
    public JobEntry? LastReading(SheetPart part, string valve) => Readings(part, valve).LastOrDefault();

    /// <summary>Lays facts over a setup.</summary>
    /// <param name="setup">What the job started from.</param>
    /// <param name="entries">The facts, in order.</param>
    /// <returns>The sheet.</returns>
    public static JobSheet Of(JobSetup setup, IReadOnlyList<JobEntry> entries)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(entries);
        return new(setup, entries);
    }

    /// <summary>The sheet with one more entry, as it would be.</summary>
    /// <param name="fact">The fact.</param>
    /// <returns>A sheet of its own.</returns>
    public JobSheet With(JobFact fact) => new(Setup, [.. Entries, new(Last + 1, Guid.Empty, "", default, fact)]);

    /// <summary>The readings of a valve in a round, in order.</summary>
    /// <param name="part">Check or re-check.</param>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The entries.</returns>
    public IEnumerable<JobEntry> Readings(SheetPart part, string valve) =>
        _inForce.Where(e => e.Fact is ReadingFact reading && reading.Part == part && reading.Valve == valve);

    /// <summary>The thickness found at a valve, or null.</summary>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The thickness.</returns>
    public ThicknessFound? FoundAt(string valve) => NewestOf($"found/{valve}") as ThicknessFound;

    /// <summary>What was done at a valve, or null.</summary>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The change.</returns>
    public ChangeFact? ChangeAt(string valve) => NewestOf($"change/{valve}") as ChangeFact;

    /// <summary>Whether a step is ticked.</summary>
    /// <param name="step">The step's name.</param>
    /// <returns>Whether it is done.</returns>
    public bool IsDone(string step) => NewestOf($"step/{step}") is StepTicked { Done: true };

    /// <summary>The newest fact of a kind, or null.</summary>
    /// <typeparam name="T">The kind.</typeparam>
    /// <returns>The fact.</returns>
    public T? Newest<T>()
        where T : JobFact => _inForce.FindLast(e => e.Fact is T)?.Fact as T;

    /// <summary>Where the job stands: the first thing that is still to be done.</summary>
    public JobStage Stage
    {
        get
        {
            if (Closing is not null)
            {
                return JobStage.Closed;
            }

            if (Plan is not { } plan)
            {
                return Engine.Valves.Any(v => LastReading(SheetPart.Check, v.Id) is null) ? JobStage.Measure
                    : Engine.Valvetrain.HasShims && Engine.Valves.Any(v => FoundAt(v.Id) is null) ? JobStage.Shims
                    : JobStage.Plan;
            }

            string[] changed = [.. plan.Changes.Select(c => c.Valve)];
            return changed.Any(v => ChangeAt(v) is null) || FitSteps.For(this).Any(s => s.Must && !IsDone(s.Name)) ? JobStage.Fit
                : changed.Any(v => LastReading(SheetPart.Recheck, v) is null) ? JobStage.Recheck
                : JobStage.Close;
        }
    }

    private JobFact? NewestOf(string subject) => _inForce.FindLast(e => e.Fact.Subject == subject)?.Fact;

    /// <summary>An entry counts unless a later one that counts undoes it; so an undo can be undone.</summary>
    private static List<JobEntry> InForceOf(IReadOnlyList<JobEntry> entries)
    {
        HashSet<Guid> undone = [];
        List<JobEntry> counted = [];
        foreach (JobEntry entry in entries.Reverse())
        {
            if (undone.Contains(entry.Action))
            {
                continue;
            }

            if (entry.Fact is Undone undo)
            {
                undone.Add(undo.Action);
            }
            else
            {
                counted.Add(entry);
            }
        }

        counted.Reverse();
        return counted;
    }
}
