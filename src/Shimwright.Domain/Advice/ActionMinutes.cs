using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;

namespace Shimwright.Domain.Advice;

/// <summary>What each kind of action takes, minutes; null where it cannot be done here. The usual ones are common practice, no source.</summary>
public sealed record ActionMinutes
{
    /// <summary>Makes the minutes.</summary>
    /// <param name="blade">One blade at one valve.</param>
    /// <param name="stack">A stack of two blades.</param>
    /// <param name="bucket">Turning a bucket by hand.</param>
    /// <param name="micrometer">Measuring one shim.</param>
    /// <param name="depth">A depth, apart from lifting the camshaft.</param>
    /// <param name="dryFit">A dry fit of one access group.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is below 0 or above <see cref="PlanCosts.Greatest"/>.</exception>
    public ActionMinutes(
        double? blade = 0.5, double? stack = 1, double? bucket = 0.2, double? micrometer = 0.7, double? depth = 4, double? dryFit = 10)
    {
        Blade = Within(blade, nameof(blade));
        Stack = Within(stack, nameof(stack));
        Bucket = Within(bucket, nameof(bucket));
        Micrometer = Within(micrometer, nameof(micrometer));
        Depth = Within(depth, nameof(depth));
        DryFit = Within(dryFit, nameof(dryFit));
    }

    /// <summary>The usual minutes.</summary>
    public static ActionMinutes Usual { get; } = new();

    /// <summary>One blade at one valve.</summary>
    public double? Blade { get; }

    /// <summary>A stack of two blades.</summary>
    public double? Stack { get; }

    /// <summary>Turning a bucket by hand.</summary>
    public double? Bucket { get; }

    /// <summary>Measuring one shim.</summary>
    public double? Micrometer { get; }

    /// <summary>A depth, apart from lifting the camshaft.</summary>
    public double? Depth { get; }

    /// <summary>A dry fit of one access group.</summary>
    public double? DryFit { get; }

    /// <summary>The same for one who cannot do a kind of action.</summary>
    /// <param name="kind">The kind.</param>
    /// <returns>The minutes.</returns>
    public ActionMinutes Without(ActionKind kind) => new(
        kind == ActionKind.Blade ? null : Blade,
        kind == ActionKind.Blade ? null : Stack,
        kind == ActionKind.Bucket ? null : Bucket,
        kind == ActionKind.Micrometer ? null : Micrometer,
        kind == ActionKind.Depth ? null : Depth,
        kind == ActionKind.DryFit ? null : DryFit);

    private static double? Within(double? minutes, string name) => minutes is { } m ? Guard.Within(m, 0, PlanCosts.Greatest, name) : null;
}
