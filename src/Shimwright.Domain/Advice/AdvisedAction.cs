using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Advice;

/// <summary>A kind of thing that can be done before the plan.</summary>
public enum ActionKind
{
    /// <summary>Try a blade, or a stack of two.</summary>
    Blade,

    /// <summary>Turn the bucket by hand.</summary>
    Bucket,

    /// <summary>Measure a shim with the micrometer.</summary>
    Micrometer,

    /// <summary>Take a depth with the camshaft lifted.</summary>
    Depth,

    /// <summary>Fit dry, feel, lift again.</summary>
    DryFit,
}

/// <summary>A shim that is worth measuring.</summary>
/// <param name="Thickness">What it is taken for now.</param>
/// <param name="Source">Where it lies.</param>
/// <param name="FromValve">The valve it is in, from 0; null where it is not in the engine.</param>
public sealed record AdvisedShim(Thickness Thickness, ShimSource Source, int? FromValve);

/// <summary>What an action may say.</summary>
/// <param name="Feel">The feel of a blade; null for anything else.</param>
/// <param name="Turns">Whether the bucket turns; null for anything else.</param>
/// <param name="Chance">How likely it is.</param>
/// <param name="Minutes">What the best plan comes to after it, minutes.</param>
public sealed record AdvisedOutcome(Feel? Feel, bool? Turns, double Chance, double Minutes);

/// <summary>One thing that is worth doing now.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Saves">How far what the best plan comes to is expected to fall, minutes, 0 or more.</param>
/// <param name="Takes">What it takes, minutes.</param>
/// <param name="Valve">The valve's place in the engine, from 0; null for a shim outside the engine and for a dry fit.</param>
/// <param name="Blades">The leaves to take together, mm; none but for a blade.</param>
/// <param name="Shim">The shim to measure, or null.</param>
/// <param name="Access">The access group to lift, or null.</param>
/// <param name="Outcomes">What it may say, where that can be listed.</param>
public sealed record AdvisedAction(
    ActionKind Kind, double Saves, double Takes, int? Valve, IReadOnlyList<double> Blades, AdvisedShim? Shim, string? Access,
    IReadOnlyList<AdvisedOutcome> Outcomes)
{
    /// <summary>What is left of the saving, minutes.</summary>
    public double Net => Saves - Takes;
}

/// <summary>What is worth doing next.</summary>
/// <param name="Minutes">What the best plan comes to as things stand, minutes.</param>
/// <param name="Plan">The best plan as things stand.</param>
/// <param name="Next">The best action for each valve and kind that is worth more than it takes, best first.</param>
public sealed record NextThings(double Minutes, ShimPlan Plan, IReadOnlyList<AdvisedAction> Next)
{
    /// <summary>How many actions that may pay were not planned through, because that takes too long.</summary>
    public int Unweighed { get; init; }

    /// <summary>Whether nothing more pays.</summary>
    public bool PlanNow => Next.Count == 0;
}
