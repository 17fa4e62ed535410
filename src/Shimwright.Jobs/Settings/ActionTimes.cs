using Shimwright.Domain.Advice;
using Shimwright.Domain.Planning;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Settings;

/// <summary>What each kind of action takes at a bench, minutes; null where it cannot be done there.</summary>
/// <param name="Blade">One blade at one valve.</param>
/// <param name="Stack">A stack of two blades.</param>
/// <param name="Bucket">Turning a bucket by hand.</param>
/// <param name="Micrometer">Measuring one shim.</param>
/// <param name="Depth">A depth, apart from lifting the camshaft.</param>
/// <param name="DryFit">A dry fit of one access group.</param>
public sealed record ActionTimes(double? Blade, double? Stack, double? Bucket, double? Micrometer, double? Depth, double? DryFit)
{
    /// <summary>The usual minutes.</summary>
    public static ActionTimes Usual { get; } = new(
        ActionMinutes.Usual.Blade, ActionMinutes.Usual.Stack, ActionMinutes.Usual.Bucket,
        ActionMinutes.Usual.Micrometer, ActionMinutes.Usual.Depth, ActionMinutes.Usual.DryFit);

    /// <summary>All that are numbers.</summary>
    internal IEnumerable<double> Numbers => new[] { Blade, Stack, Bucket, Micrometer, Depth, DryFit }.OfType<double>();

    /// <summary>As a job has them, where the greatest number says that it cannot be done.</summary>
    internal WrittenMinutes ToWritten() => new(
        Blade ?? PlanCosts.Greatest, Stack ?? PlanCosts.Greatest, Bucket ?? PlanCosts.Greatest,
        Micrometer ?? PlanCosts.Greatest, Depth ?? PlanCosts.Greatest, DryFit ?? PlanCosts.Greatest);
}
