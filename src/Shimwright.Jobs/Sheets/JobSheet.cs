using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Sheets;

/// <summary>A job as its facts have left it: the setup with every fact laid over it in order, those that were undone left out.</summary>
public sealed class JobSheet
{
    private readonly List<JobEntry> _inForce;
    private readonly HashSet<int> _standing = [];
    private readonly Dictionary<string, JobEntry> _newest = new(StringComparer.Ordinal);
    private readonly ChangesMade _changes = new();

    /// <summary>The number of the plan that the work began with; one that carries it on begins nothing.</summary>
    private readonly int _beginning;

    private JobSheet(JobSetup setup, IReadOnlyList<JobEntry> entries)
    {
        Setup = setup;
        Entries = entries;
        _inForce = InForceOf(entries);
        foreach (JobEntry entry in _inForce)
        {
            if (entry.Fact is ChangeFact change)
            {
                _changes.Add(entry.Number, change, FoundAt(change.Valve));
            }

            _beginning = entry.Fact is PlanReleased or PlanAccepted { CarriesOn: false } ? entry.Number : _beginning;
            if (entry.Fact.Subject is { } subject)
            {
                _newest[subject] = entry;
            }
        }
    }

    /// <summary>What the job started from.</summary>
    public JobSetup Setup { get; }

    /// <summary>What the shop's drawer has for the job now; null where the shop keeps none for this engine.</summary>
    public IReadOnlyList<ShimsAtHand>? Shop { get; private init; }

    /// <summary>All entries, in order.</summary>
    public IReadOnlyList<JobEntry> Entries { get; }

    /// <summary>The entries that still count, in order.</summary>
    public IReadOnlyList<JobEntry> InForce => _inForce;

    /// <summary>The undoings that still count, in order: each can be undone in turn.</summary>
    public IReadOnlyList<JobEntry> Undoings => [.. Entries.Where(e => e.Fact is Undone && Stands(e))];

    /// <summary>The number of the last entry; 0 on an empty sheet.</summary>
    public int Last => Entries.Count == 0 ? 0 : Entries[^1].Number;

    /// <summary>The engine.</summary>
    public Engine Engine => Setup.Card.Engine;

    /// <summary>Clock and temperature of the check.</summary>
    public CheckStated Check => Newest<CheckStated>() ?? new(Setup.Start.Clock, Setup.Start.Check.Temperature);

    /// <summary>Temperature of the re-check, °C.</summary>
    public double RecheckTemperature => Newest<RecheckStated>()?.TemperatureC ?? Check.TemperatureC;

    /// <summary>What is suspected to have moved the valves; null where nobody has said.</summary>
    public SuspectedCause? Suspected => Newest<LossSuspected>() is { } loss ? SuspectedCause.Of(loss.Cause) : null;

    /// <summary>What was found of each lifted camshaft, by name.</summary>
    public IEnumerable<CamshaftFact> Camshafts => _newest.Values.Select(e => e.Fact).OfType<CamshaftFact>().OrderBy(c => c.Camshaft, StringComparer.Ordinal);

    /// <summary>The plan that holds, or null.</summary>
    public PlanAccepted? Plan => NewestOf("plan") as PlanAccepted;

    /// <summary>Whether a plan was accepted and let go again, which leaves the choice open.</summary>
    internal bool PlanWasReleased => NewestOf("plan") is PlanReleased;

    /// <summary>The valves at which something was done since the check.</summary>
    internal IReadOnlyCollection<string> ChangedValves => _changes.Valves;

    /// <summary>Whether something that the plan rests on was added or taken back after it was accepted.</summary>
    public bool PlanIsOutdated =>
        Plan is not null && Entries.Any(e => e.Number > _newest["plan"].Number && Stands(e) && SaidBy(e).Any(f => f.BearsOnThePlan));

    /// <summary>How the job was closed; null while it is open.</summary>
    public JobClosed? Closing => NewestOf("closed") as JobClosed;

    /// <summary>Whether the job was discarded and not put back.</summary>
    public bool IsDiscarded => NewestOf("discarded") is JobDiscarded;

    /// <summary>The notes, in order.</summary>
    public IEnumerable<JobEntry> Notes => _inForce.Where(e => e.Fact is JobNoted);

    /// <summary>The photos as they were last spoken of, those that were put away among them, in the order in which they came.</summary>
    public IEnumerable<PhotoKept> Photos => _inForce.Select(e => e.Fact).OfType<PhotoKept>().Select(p => p.Subject).Distinct().Select(s => (PhotoKept)_newest[s].Fact);

    /// <summary>The newest entry of a valve in a round that can be taken back, or null.</summary>
    /// <param name="part">Check or re-check.</param>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The entry.</returns>
    public JobEntry? LastReading(SheetPart part, string valve) => Readings(part, valve).LastOrDefault();

    /// <summary>Whether a valve was read as it was found: at this check, or in an earlier round that left it alone.</summary>
    /// <param name="valve">The valve's id.</param>
    /// <returns>Whether it was.</returns>
    public bool IsRead(string valve) => LastReading(SheetPart.Check, valve) is not null || Setup.Start.Sections.WasReadBefore(valve);

    /// <summary>Lays facts over a setup.</summary>
    /// <param name="setup">What the job started from.</param>
    /// <param name="entries">The facts, in order.</param>
    /// <returns>The sheet.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="setup"/> or <paramref name="entries"/> is null.</exception>
    public static JobSheet Of(JobSetup setup, IReadOnlyList<JobEntry> entries)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(entries);
        return new(setup, entries);
    }

    /// <summary>The sheet with one more entry, as it would be.</summary>
    /// <param name="fact">The fact.</param>
    /// <returns>A sheet of its own.</returns>
    public JobSheet With(JobFact fact) => new(Setup, [.. Entries, new(Last + 1, Guid.Empty, "", default, fact)]) { Shop = Shop };

    /// <summary>The sheet with what the shop's drawer has for it.</summary>
    /// <param name="shop">The shims, or null.</param>
    /// <returns>A sheet of its own.</returns>
    public JobSheet WithShop(IReadOnlyList<ShimsAtHand>? shop) => new(Setup, Entries) { Shop = shop };

    /// <summary>
    /// The readings of a valve in a round, in order. A re-check is one of the newest change only: what was felt before
    /// something else went in says nothing of what is there now. A dry fit is that of the shims that lie under the camshaft now.
    /// </summary>
    /// <param name="part">Check or re-check.</param>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The entries.</returns>
    public IEnumerable<JobEntry> Readings(SheetPart part, string valve)
    {
        int after = part switch
        {
            SheetPart.Recheck => _changes.NumberOf(valve),
            SheetPart.DryFit => UnderTheSame(valve).Max(_changes.SinceOf),
            _ => 0,
        };
        return _inForce.Where(e => e.Number > after && e.Fact is ReadingFact reading && reading.Part == part && reading.Valve == valve);
    }

    /// <summary>The thickness found at a valve, or null.</summary>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The thickness.</returns>
    public ThicknessFound? FoundAt(string valve) => NewestOf($"found/{valve}") as ThicknessFound;

    /// <summary>What was done at a valve since the check, or null: from what was found there to what is in there now.</summary>
    /// <param name="valve">The valve's id.</param>
    /// <returns>The change.</returns>
    public ChangeFact? ChangeAt(string valve) => _changes.At(valve);

    /// <summary>Whether a line of the plan is still to be carried out.</summary>
    /// <param name="row">The line of a valve that is changed.</param>
    /// <returns>Whether it is.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="row"/> is null.</exception>
    public bool IsOwed(Results.PlanRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return ChangeAt(row.Valve) is not { } change
            || (Plan is { CarriesOn: true } && _changes.NumberOf(row.Valve) < _newest["plan"].Number
                && change is ShimFitted fitted && fitted.To.Thickness != row.To?.Thickness);
    }

    /// <summary>The valves under the same camshaft as one, itself among them.</summary>
    private IEnumerable<string> UnderTheSame(string valve)
    {
        string group = Engine.Valves.First(v => v.Id == valve).Group;
        return Engine.Valves.Where(v => v.Group == group).Select(v => v.Id);
    }

    /// <summary>Whether a step is ticked. A tick belongs to its plan: after another was accepted the work is done, and ticked, again.</summary>
    /// <param name="step">The step's name.</param>
    /// <returns>Whether it is done.</returns>
    public bool IsDone(string step) =>
        _newest.GetValueOrDefault($"step/{step}") is { Fact: StepTicked { Done: true } } tick
        && tick.Number > _beginning;

    /// <summary>Whether something that an undo means still counts, so that it can be taken back.</summary>
    /// <param name="undo">The undo; it may mean an undo too.</param>
    /// <returns>Whether it does.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="undo"/> is null.</exception>
    public bool Counts(Undone undo)
    {
        ArgumentNullException.ThrowIfNull(undo);
        return undo.Action != Guid.Empty && Entries.Any(e => undo.Means(e) && Stands(e));
    }

    /// <summary>What was added, or taken back, in between and has to be seen before facts are added. What the person had seen decides, not who sent it: one device may have two pages open.</summary>
    /// <param name="facts">The facts that are about to be added.</param>
    /// <param name="seen">The number of the last entry that the person had seen.</param>
    /// <param name="alsoSeen">Actions after that which the person had seen too, or null.</param>
    /// <returns>The entries; none where the facts may be added.</returns>
    public IReadOnlyList<JobEntry> Unseen(IReadOnlyList<JobFact> facts, int seen, IReadOnlySet<Guid>? alsoSeen = null) =>
        [.. Entries.Where(e => e.Number > seen && alsoSeen?.Contains(e.Action) != true && Stands(e)
            && SaidBy(e).Any(said => facts.Any(f => f.ConflictsWith(said))))];

    /// <summary>The newest fact of a kind, or null.</summary>
    /// <typeparam name="T">The kind.</typeparam>
    /// <returns>The fact.</returns>
    public T? Newest<T>()
        where T : JobFact => _inForce.FindLast(e => e.Fact is T)?.Fact as T;

    /// <summary>What the facts of an action say: its own, or for an undo those that it took back.</summary>
    internal IEnumerable<JobFact> SaidBy(JobEntry entry) => entry.Fact is Undone undo
        ? Entries.Where(e => e.Number < entry.Number && undo.Means(e)).SelectMany(SaidBy)
        : [entry.Fact];

    private bool Stands(JobEntry entry) => _standing.Contains(entry.Number);

    private JobFact? NewestOf(string subject) => _newest.GetValueOrDefault(subject)?.Fact;

    /// <summary>An entry counts unless a later one that counts undoes it; so an undo can be undone.</summary>
    private List<JobEntry> InForceOf(IReadOnlyList<JobEntry> entries)
    {
        HashSet<Guid> actions = [];
        HashSet<int> numbers = [];
        List<JobEntry> counted = [];
        foreach (JobEntry entry in entries.Reverse())
        {
            if (actions.Contains(entry.Action) || numbers.Contains(entry.Number))
            {
                continue;
            }

            _standing.Add(entry.Number);
            if (entry.Fact is Undone undo)
            {
                _ = undo.Entry is { } number ? numbers.Add(number) : actions.Add(undo.Action);
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
