using System.Text.Json.Serialization;
using Shimwright.Domain.Planning;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Facts;

/// <summary>What shims the job may use.</summary>
/// <param name="Drawer">At hand.</param>
/// <param name="Buy">To be bought.</param>
/// <param name="FromShop">Whether what is at hand is the shop's drawer, here as it was when this was said.</param>
public sealed record StockStated(IReadOnlyList<ShimsAtHand> Drawer, IReadOnlyList<SizesToBuy> Buy, bool FromShop = false) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "stock";

    /// <inheritdoc/>
    [JsonIgnore]
    public override bool BearsOnThePlan => true;
}

/// <summary>What work and shims cost on this job.</summary>
/// <param name="Redo">Another round apart from lifting and swapping, minutes.</param>
/// <param name="Swap">One valve's change, minutes.</param>
/// <param name="MinutesPerCurrency">Minutes that one unit of currency is worth.</param>
/// <param name="Horizon">How long the clearances should stay in band, on the engine's clock.</param>
/// <param name="Access">Minutes to lift each access group.</param>
/// <param name="Disturb">What changing a valve costs more where it was in band already, minutes.</param>
public sealed record CostsStated(
    double Redo, double Swap, double MinutesPerCurrency, double Horizon, IReadOnlyDictionary<string, double> Access,
    double Disturb = PlanCosts.UsualDisturb) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "costs";

    /// <inheritdoc/>
    [JsonIgnore]
    public override bool BearsOnThePlan => true;
}

/// <summary>A plan was accepted: what was promised, word for word.</summary>
/// <param name="Opened">The access groups to be lifted.</param>
/// <param name="ChanceAll">The chance that all pass the first time.</param>
/// <param name="Minutes">Work and what is to come, minutes.</param>
/// <param name="Bought">What is to be bought.</param>
/// <param name="Valves">The plan's lines.</param>
/// <param name="Stranded">The valves that no thickness at hand serves, and why.</param>
/// <param name="Work">What is opened, changed and bought, minutes; null in plans from before it was kept.</param>
/// <param name="ToCome">What is to come after it as often as it is expected, minutes; null in plans from before it was kept.</param>
/// <param name="CarriesOn">Whether it was made at a dry fit: what was ticked before stays ticked, and of the shims only those that go are fitted again.</param>
public sealed record PlanAccepted(
    IReadOnlyList<string> Opened, double ChanceAll, double Minutes, IReadOnlyList<BoughtRow> Bought,
    IReadOnlyList<PlanRow> Valves, IReadOnlyList<StrandedRow> Stranded,
    double? Work = null, double? ToCome = null, bool CarriesOn = false) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "plan";

    /// <summary>The lines of the valves that are changed.</summary>
    [JsonIgnore]
    public IEnumerable<PlanRow> Changes => Valves.Where(v => v.Action != "keep");
}

/// <summary>The accepted plan was let go.</summary>
public sealed record PlanReleased : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "plan";
}

/// <summary>A step of the work was ticked, or the tick was taken back.</summary>
/// <param name="Step">The step's name.</param>
/// <param name="Done">Whether it is done.</param>
public sealed record StepTicked(string Step, bool Done) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => $"step/{Step}";
}

/// <summary>The crank was turned to a stop.</summary>
/// <param name="Part">The round in which it was: check or re-check.</param>
/// <param name="Stop">The stop, from 1, in the order of the answer of stops.</param>
public sealed record CrankTurned(SheetPart Part, int Stop) : JobFact;

/// <summary>What was done at one valve.</summary>
/// <param name="Valve">The valve's id.</param>
public abstract record ChangeFact(string Valve) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => $"change/{Valve}";
}

/// <summary>A shim or graded bucket was fitted.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="From">What came out.</param>
/// <param name="To">What went in.</param>
public sealed record ShimFitted(string Valve, ThicknessRow From, ThicknessRow To) : ChangeFact(Valve);

/// <summary>A screw was turned.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="Turns">Turns since the check, all together, positive for more clearance.</param>
public sealed record ScrewTurned(string Valve, double Turns) : ChangeFact(Valve);

/// <summary>The job was closed.</summary>
/// <param name="Clock">The engine's clock then.</param>
/// <param name="Found">What was found.</param>
/// <param name="Notes">Notes for the customer.</param>
/// <param name="By">Who did the work.</param>
public sealed record JobClosed(double Clock, string Found, string Notes, string By) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "closed";
}

/// <summary>A closed job was opened again.</summary>
public sealed record JobReopened : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "closed";
}

/// <summary>The job was discarded: it counts for nothing until it is put back.</summary>
public sealed record JobDiscarded : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "discarded";
}

/// <summary>A discarded job was put back.</summary>
public sealed record JobPutBack : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "discarded";
}

/// <summary>An earlier fact was taken back.</summary>
/// <param name="Action">The action that added it.</param>
/// <param name="Entry">The number of the one entry that is meant, where the action added several; null for all of them.</param>
public sealed record Undone(Guid Action, int? Entry = null) : JobFact
{
    /// <summary>Whether an entry is what was taken back.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>Whether it is.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="entry"/> is null.</exception>
    public bool Means(JobEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return entry.Action == Action && (Entry is null || Entry == entry.Number);
    }
}
