using Shimwright.Domain.Advice;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;
using SeatingLimits = Shimwright.Domain.Adjusting.Seating;

namespace Shimwright.Jobs.Sections;

/// <summary>The numbers among the bench's own constants.</summary>
internal static class SettingsNumbers
{
    private static readonly NumberRule Threshold = new(FeelProfile.LeastThreshold, FeelProfile.GreatestThreshold, Measure.Length);

    public static NumberMember Firm { get; } = new("firm", Threshold, "Play at which a blade just enters, mm.", FeelSettings.Usual.Firm);

    public static NumberMember Light { get; } = new("light", Threshold, "Play at which heavy drag turns light, mm.", FeelSettings.Usual.Light);

    public static NumberMember Loose { get; } = new("loose", Threshold, "Play at which drag ends, mm.", FeelSettings.Usual.Loose);

    public static NumberMember Spread { get; } = new(
        "spread", new(FeelProfile.LeastSpread, FeelProfile.GreatestSpread, Measure.Length), "Standard deviation of the feel, mm.", FeelSettings.Usual.Spread);

    public static NumberMember Slip { get; } = new(
        "slip", new(FeelProfile.LeastSlip, FeelProfile.GreatestSlip), "Share of trials whose feel says nothing.", FeelSettings.Usual.Slip);

    public static NumberMember Doubt { get; } = new(
        "doubt", new(0, FeelProfile.GreatestDoubt, Measure.Length), "Standard deviation of the offset that the three plays share in one check, mm.", FeelSettings.Usual.Doubt);

    public static NumberMember Blade { get; } = new(
        "blade", new(0, FeelProfile.GreatestBladeUncertainty, Measure.Length), "Standard uncertainty of one blade's thickness, mm.", FeelProfile.Default.Blade);

    public static NumberMember Seating { get; } = new(
        "seating", new(SeatingLimits.Least, SeatingLimits.Greatest, Measure.Length), "How well a shim seats, standard deviation, mm.", SeatingLimits.Usual.StandardDeviation);

    public static NumberMember KeepFloor { get; } = new(
        "keepFloor", new(0, 1), "The least chance of being in band with which a valve may be left alone.", PlanRules.Default.KeepFloor);

    public static NumberMember FitFloor { get; } = new(
        "fitFloor", new(0, 1), "The least chance of landing in band with which a thickness may be fitted.", PlanRules.Default.FitFloor);

    public static NumberMember PassFloor { get; } = new(
        "passFloor", new(0, 1), "The least chance of being in band with which a valve passes its re-check.", PassRule.UsualFloor);

    public static NumberMember Risk { get; } = new("risk", new(0.001, 0.999), "The risk of a valve outside its band at which the next check is due.", 0.10);

    public static NumberMember ServiceLevel { get; } = new(
        "serviceLevel", new(0.5, 0.9999), "How often the drawer should have the size that is wanted.", 0.90);

    public static NumberMember BladeMinutes { get; } = Takes("blade", "One blade at one valve", ActionMinutes.Usual.Blade);

    public static NumberMember StackMinutes { get; } = Takes("stack", "A stack of two blades", ActionMinutes.Usual.Stack);

    public static NumberMember BucketMinutes { get; } = Takes("bucket", "Turning a bucket by hand", ActionMinutes.Usual.Bucket);

    public static NumberMember MicrometerMinutes { get; } = Takes("micrometer", "Measuring one shim", ActionMinutes.Usual.Micrometer);

    public static NumberMember DepthMinutes { get; } = Takes("depth", "A depth, apart from lifting the camshaft", ActionMinutes.Usual.Depth);

    public static NumberMember DryFitMinutes { get; } = Takes("dryFit", "A dry fit of one access group", ActionMinutes.Usual.DryFit);

    private static NumberMember Takes(string name, string what, double? usual) =>
        new(name, new(0, PlanCosts.Greatest, Measure.Duration), $"{what}, minutes; 100000 for one who cannot.", usual!.Value);
}
