using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The bench's own constants.</summary>
internal sealed record SettingsSection(FeelProfile Feel, PlanRules Rules, InstrumentSet Instruments, double Risk, double ServiceLevel)
{
    public static SettingsSection Default { get; } =
        new(FeelProfile.Default, PlanRules.Default, InstrumentSet.Default, 0.10, 0.90);

    public static SettingsSection Read(ObjectMembers o)
    {
        Thresholds? feel = o.Object("feel", ReadFeel, "How this person's fingers read a blade.");
        double? blade = o.Number(
            "blade", new(0, FeelProfile.GreatestBladeUncertainty, Measure.Length), "Standard uncertainty of one blade's thickness, mm.");
        double? seating = o.Number(
            "seating", new(Seating.Least, Seating.Greatest, Measure.Length), "How well a shim seats, standard deviation, mm.");
        InstrumentSet? instruments = o.Object("instruments", InstrumentSet.Read, "Uncertainties of thicknesses.");
        double? keepFloor = o.Number("keepFloor", new(0, 1), "The least chance of being in band with which a valve may be left alone.");
        double? fitFloor = o.Number("fitFloor", new(0, 1), "The least chance of landing in band with which a thickness may be fitted.");
        double? risk = o.Number("risk", new(0.001, 0.999), "The risk of a valve outside its band at which the next check is due.");
        double? service = o.Number("serviceLevel", new(0.5, 0.9999), "How often the drawer should have the size that is wanted.");

        Thresholds fingers = feel ?? Thresholds.Default;
        PlanRules usual = PlanRules.Default;
        return new(
            new FeelProfile(fingers.Firm, fingers.Light, fingers.Loose, fingers.Spread, fingers.Slip, blade ?? FeelProfile.Default.Blade),
            new PlanRules(keepFloor ?? usual.KeepFloor, fitFloor ?? usual.FitFloor, seating is { } found ? new Seating(found) : usual.Seating),
            instruments ?? InstrumentSet.Default,
            risk ?? 0.10,
            service ?? 0.90);
    }

    private static Thresholds? ReadFeel(ObjectMembers o)
    {
        var rule = new NumberRule(FeelProfile.LeastThreshold, FeelProfile.GreatestThreshold, Measure.Length);
        Thresholds usual = Thresholds.Default;
        var feel = new Thresholds(
            o.Number("firm", rule, "Play at which a blade just enters, mm.") ?? usual.Firm,
            o.Number("light", rule, "Play at which heavy drag turns light, mm.") ?? usual.Light,
            o.Number("loose", rule, "Play at which drag ends, mm.") ?? usual.Loose,
            o.Number("spread", new(FeelProfile.LeastSpread, FeelProfile.GreatestSpread, Measure.Length), "Standard deviation of the feel, mm.") ?? usual.Spread,
            o.Number("slip", new(FeelProfile.LeastSlip, FeelProfile.GreatestSlip), "Share of trials whose feel says nothing.") ?? usual.Slip);
        if (feel.Firm < feel.Light && feel.Light < feel.Loose)
        {
            return feel;
        }

        o.Problem("", $"found firm {NumberRule.Text(feel.Firm)}, light {NumberRule.Text(feel.Light)}, loose {NumberRule.Text(feel.Loose)}", "the three must rise");
        return null;
    }

    private sealed record Thresholds(double Firm, double Light, double Loose, double Spread, double Slip)
    {
        private static readonly FeelProfile Usual = FeelProfile.Default;

        public static Thresholds Default { get; } = new(Usual.Firm, Usual.Light, Usual.Loose, Usual.StandardDeviation, Usual.Slip);
    }
}
