using System.Text.Json.Serialization;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;

namespace Shimwright.Testing.Shed;

/// <summary>Something that is asked of the bench, or sent to it. Whatever saves carries its action: sent twice it counts once.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "call")]
[JsonDerivedType(typeof(RiskSet), "risk")]
[JsonDerivedType(typeof(EngineAdded), "engine")]
[JsonDerivedType(typeof(JobStarted), "start")]
[JsonDerivedType(typeof(FactsAdded), "facts")]
[JsonDerivedType(typeof(ShimsPutIn), "in")]
[JsonDerivedType(typeof(ShimsCounted), "count")]
[JsonDerivedType(typeof(PlanAsked), "plan")]
[JsonDerivedType(typeof(StepsAsked), "steps")]
[JsonDerivedType(typeof(DueAsked), "due")]
[JsonDerivedType(typeof(OrdersAsked), "orders")]
internal abstract record ShedCall;

/// <summary>The risk at which a check is due is set for the bench.</summary>
internal sealed record RiskSet(double Risk) : ShedCall;

/// <summary>An engine of a kind comes to the shed.</summary>
internal sealed record EngineAdded(Guid Id, string Name, int Kind, double PerWeek) : ShedCall;

internal sealed record JobStarted(Guid Engine, double Clock, Guid Action) : ShedCall;

internal sealed record FactsAdded(Guid Job, Guid Action, IReadOnlyList<JobFact> Facts) : ShedCall;

internal sealed record ShimsPutIn(ShimSize Size, int Count, Guid Action) : ShedCall;

internal sealed record ShimsCounted(IReadOnlyList<ShimCount> Counted, Guid Action) : ShedCall;

internal sealed record PlanAsked(Guid Job) : ShedCall;

internal sealed record StepsAsked(Guid Job) : ShedCall;

internal sealed record DueAsked(Guid Engine) : ShedCall;

/// <summary>What to order so that the drawer has what the checks of the next days want.</summary>
internal sealed record OrdersAsked(int Days, double ServiceLevel) : ShedCall;

/// <summary>A shim that a plan would take out of a drawer that has everything.</summary>
/// <param name="Size">The size.</param>
/// <param name="InBand">The chance that the valve was in band as it was found.</param>
/// <param name="HasCompany">Whether another valve under the same camshaft is changed too.</param>
internal sealed record WantedShim(ShimSize Size, double InBand, bool HasCompany);

/// <summary>A line of the order list.</summary>
/// <param name="Size">The size.</param>
/// <param name="Chances">The chance that 0, 1, 2, … are wanted.</param>
/// <param name="Free">How many were there and free.</param>
/// <param name="ToOrder">How many to order.</param>
/// <param name="Covered">The chance that it will do once the order is in.</param>
internal sealed record OrderRow(ShimSize Size, IReadOnlyList<double> Chances, int Free, int ToOrder, double Covered);

/// <summary>What the bench answers.</summary>
internal sealed record ShedAnswer
{
    public AddOutcome Outcome { get; init; }

    public IReadOnlyList<string> Problems { get; init; } = [];

    /// <summary>The job that was started.</summary>
    public Guid Job { get; init; }

    /// <summary>The plan from what the drawer has.</summary>
    public PlanAccepted? Plan { get; init; }

    /// <summary>What a plan would take out of a drawer that has everything.</summary>
    public IReadOnlyList<WantedShim> Wanted { get; init; } = [];

    public IReadOnlyList<string> Steps { get; init; } = [];

    public DateTime? DueAt { get; init; }

    public IReadOnlyList<OrderRow> Orders { get; init; } = [];

    /// <summary>The engines that the order list counts as due, and how many shims each will want.</summary>
    public IReadOnlyDictionary<Guid, double> Due { get; init; } = new Dictionary<Guid, double>();

    public bool IsSaved => Outcome is AddOutcome.Saved or AddOutcome.SavedBefore;
}

/// <summary>The bench as whoever works in the shed sees it. It answers when what was sent is kept, however often it has to be sent.</summary>
internal interface IShedBench
{
    Task<ShedAnswer> AskAsync(ShedCall call);
}
