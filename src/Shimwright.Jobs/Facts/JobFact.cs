using System.Text.Json.Serialization;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Facts;

/// <summary>Which round of reading a fact belongs to.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<SheetPart>))]
public enum SheetPart
{
    /// <summary>The check before anything is changed.</summary>
    Check,

    /// <summary>The re-check after the work.</summary>
    Recheck,

    /// <summary>A dry fit in the middle of the work: the shims in, the camshaft laid down with its caps snug.</summary>
    DryFit,
}

/// <summary>One thing that was found, decided or done on a job. Facts are appended and never altered; a newer one corrects an older.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "fact")]
[JsonDerivedType(typeof(BladeTried), "blade")]
[JsonDerivedType(typeof(ClearanceRead), "value")]
[JsonDerivedType(typeof(BucketTurned), "turns")]
[JsonDerivedType(typeof(DepthTaken), "depth")]
[JsonDerivedType(typeof(CamshaftMeasured), "camshaft")]
[JsonDerivedType(typeof(CamshaftCompared), "compared")]
[JsonDerivedType(typeof(CrankTurned), "crank")]
[JsonDerivedType(typeof(CheckStated), "check")]
[JsonDerivedType(typeof(ClockAnswered), "clock")]
[JsonDerivedType(typeof(RecheckStated), "recheck")]
[JsonDerivedType(typeof(LossSuspected), "loss")]
[JsonDerivedType(typeof(ThicknessFound), "found")]
[JsonDerivedType(typeof(StockStated), "stock")]
[JsonDerivedType(typeof(CostsStated), "costs")]
[JsonDerivedType(typeof(PlanAccepted), "plan")]
[JsonDerivedType(typeof(PlanReleased), "release")]
[JsonDerivedType(typeof(StepTicked), "step")]
[JsonDerivedType(typeof(ShimFitted), "fitted")]
[JsonDerivedType(typeof(ScrewTurned), "turned")]
[JsonDerivedType(typeof(JobNoted), "note")]
[JsonDerivedType(typeof(JobNumbered), "number")]
[JsonDerivedType(typeof(PhotoKept), "photo")]
[JsonDerivedType(typeof(JobClosed), "closed")]
[JsonDerivedType(typeof(JobReopened), "reopened")]
[JsonDerivedType(typeof(JobDiscarded), "discarded")]
[JsonDerivedType(typeof(JobPutBack), "putBack")]
[JsonDerivedType(typeof(Undone), "undone")]
public abstract record JobFact
{
    /// <summary>What the fact takes the place of, where a newer fact of the same subject corrects it; null where facts add up.</summary>
    [JsonIgnore]
    public virtual string? Subject => null;

    /// <summary>Whether a plan that was made before it may be another one after it.</summary>
    [JsonIgnore]
    public virtual bool BearsOnThePlan => false;

    /// <summary>
    /// Whether this fact, decided by someone who had not seen <paramref name="unseen"/>, must not be taken without asking:
    /// both say something else of the same subject; this one accepts a plan that the other changes; this one closes or discards
    /// the job, which any other fact may change; one of them works by a plan that the other ended; or this one reads a valve at which the
    /// other has changed something.
    /// </summary>
    /// <param name="unseen">A fact that was added, or taken back, in between.</param>
    /// <returns>Whether the two conflict.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="unseen"/> is null.</exception>
    public bool ConflictsWith(JobFact unseen)
    {
        ArgumentNullException.ThrowIfNull(unseen);
        return (Subject is not null && Subject == unseen.Subject && FactJson.Write(this) != FactJson.Write(unseen))
            || this switch
            {
                PlanAccepted => unseen.BearsOnThePlan,
                JobClosed or JobDiscarded => unseen is not BesideFact,
                PlanReleased => unseen is ChangeFact or StepTicked,
                ChangeFact or StepTicked => unseen is PlanAccepted or PlanReleased,
                ReadingFact reading => unseen is ChangeFact change && change.Valve == reading.Valve,
                _ => false,
            };
    }
}

/// <summary>A reading of one valve in one of the rounds.</summary>
/// <param name="Part">Check, dry fit or re-check.</param>
/// <param name="Valve">The valve's id.</param>
public abstract record ReadingFact(SheetPart Part, string Valve) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override bool BearsOnThePlan => Part == SheetPart.Check;
}

/// <summary>A blade was tried.</summary>
/// <param name="Part">Check, dry fit or re-check.</param>
/// <param name="Valve">The valve's id.</param>
/// <param name="Blade">Thickness of the blade or the whole stack, mm.</param>
/// <param name="Leaves">Leaves in the stack.</param>
/// <param name="Feel">no, firm, light or loose.</param>
public sealed record BladeTried(SheetPart Part, string Valve, double Blade, int Leaves, string Feel) : ReadingFact(Part, Valve);

/// <summary>A clearance was measured as a number.</summary>
/// <param name="Part">Check, dry fit or re-check.</param>
/// <param name="Valve">The valve's id.</param>
/// <param name="Value">The clearance, mm.</param>
/// <param name="U">Its standard uncertainty, mm.</param>
public sealed record ClearanceRead(SheetPart Part, string Valve, double Value, double U) : ReadingFact(Part, Valve);

/// <summary>The bucket was tried by hand on the heel of its cam.</summary>
/// <param name="Part">Check, dry fit or re-check.</param>
/// <param name="Valve">The valve's id.</param>
/// <param name="Turns">Whether it turned.</param>
public sealed record BucketTurned(SheetPart Part, string Valve, bool Turns) : ReadingFact(Part, Valve);

/// <summary>A depth was taken with the camshaft lifted; the sizes that its valves share stand in a fact about the camshaft, or in what the job started from.</summary>
/// <param name="Part">Check, dry fit or re-check.</param>
/// <param name="Valve">The valve's id.</param>
/// <param name="Camshaft">The camshaft over it, by name.</param>
/// <param name="Bucket">Depth from the parting face to what the cam runs on, mm.</param>
/// <param name="Shim">The shim, where it was out when the depth was taken.</param>
public sealed record DepthTaken(SheetPart Part, string Valve, string Camshaft, MeasuredPart Bucket, MeasuredPart? Shim = null) : ReadingFact(Part, Valve);

/// <summary>What the engine's clock and temperature were at the check.</summary>
/// <param name="Clock">The engine's clock, hours or km.</param>
/// <param name="TemperatureC">Engine temperature, °C.</param>
public sealed record CheckStated(double Clock, double TemperatureC) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "check";

    /// <inheritdoc/>
    [JsonIgnore]
    public override bool BearsOnThePlan => true;
}

/// <summary>Why the engine's clock shows less than was known before. What came before says nothing of wear any more: how long the engine ran since is not known.</summary>
/// <param name="Why">meter, where the meter was changed; right, where what was known before was wrong.</param>
/// <param name="Last">What was known before, hours or km.</param>
public sealed record ClockAnswered(string Why, double Last) : JobFact
{
    /// <summary>The meter was changed.</summary>
    public const string Meter = "meter";

    /// <summary>The clock is right, and what was known before was wrong.</summary>
    public const string Right = "right";

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "clock";
}

/// <summary>What the engine's temperature was at the re-check.</summary>
/// <param name="TemperatureC">Engine temperature, °C.</param>
public sealed record RecheckStated(double TemperatureC) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "recheck";
}

/// <summary>What is suspected to have moved the valves.</summary>
/// <param name="Cause">One of the causes of <see cref="SuspectedCause"/>.</param>
public sealed record LossSuspected(string Cause) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "loss";

    /// <inheritdoc/>
    [JsonIgnore]
    public override bool BearsOnThePlan => true;
}

/// <summary>The thickness found at a valve.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
public sealed record ThicknessFound(string Valve, double Thickness, string By) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => $"found/{Valve}";

    /// <inheritdoc/>
    [JsonIgnore]
    public override bool BearsOnThePlan => true;
}
