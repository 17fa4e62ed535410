using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Advice;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Sections;

/// <summary>The bench's own constants, as far as they bear on one job.</summary>
internal sealed record SettingsSection(FeelProfile Feel, PlanRules Rules, InstrumentSet Instruments, PassRule Pass, double Risk, ActionMinutes Minutes)
{
    public static SettingsSection Default { get; } = new(FeelProfile.Default, PlanRules.Default, InstrumentSet.Default, PassRule.Usual, SettingsNumbers.Risk.Usual, ActionMinutes.Usual);

    public static SettingsSection Read(ObjectMembers o)
    {
        FeelSettings fingers = o.Object("feel", ReadFeel, "How this person's fingers read a blade.") ?? FeelSettings.Usual;
        double blade = o.Number(SettingsNumbers.Blade);
        double seating = o.Number(SettingsNumbers.Seating);
        InstrumentSet? instruments = o.Object("instruments", InstrumentSet.Read, "Uncertainties of thicknesses.");
        double keepFloor = o.Number(SettingsNumbers.KeepFloor);
        double fitFloor = o.Number(SettingsNumbers.FitFloor);
        double passFloor = o.Number(SettingsNumbers.PassFloor);
        double risk = o.Number(SettingsNumbers.Risk);
        ActionMinutes minutes = o.Object("minutes", ReadMinutes, "What each kind of action takes, minutes.") ?? ActionMinutes.Usual;
        // It is about the drawer of all jobs together: judged here and kept with the settings, without a say in this one.
        o.Number(SettingsNumbers.ServiceLevel);
        return new(
            new FeelProfile(fingers.Firm, fingers.Light, fingers.Loose, fingers.Spread, fingers.Slip, blade, fingers.Doubt),
            new PlanRules(keepFloor, fitFloor, new Seating(seating)),
            instruments ?? InstrumentSet.Default,
            new PassRule(passFloor),
            risk,
            minutes);
    }

    private static ActionMinutes ReadMinutes(ObjectMembers o) => new(
        IfPossible(o, SettingsNumbers.BladeMinutes), IfPossible(o, SettingsNumbers.StackMinutes), IfPossible(o, SettingsNumbers.BucketMinutes),
        IfPossible(o, SettingsNumbers.MicrometerMinutes), IfPossible(o, SettingsNumbers.DepthMinutes), IfPossible(o, SettingsNumbers.DryFitMinutes));

    /// <summary>The greatest number says that it cannot be done, so that it need not be weighed.</summary>
    private static double? IfPossible(ObjectMembers o, NumberMember member) => o.Number(member) is var minutes && minutes < PlanCosts.Greatest ? minutes : null;

    private static FeelSettings? ReadFeel(ObjectMembers o)
    {
        var feel = new FeelSettings(
            o.Number(SettingsNumbers.Firm), o.Number(SettingsNumbers.Light), o.Number(SettingsNumbers.Loose),
            o.Number(SettingsNumbers.Spread), o.Number(SettingsNumbers.Slip), o.Number(SettingsNumbers.Doubt));
        if (feel.Firm < feel.Light && feel.Light < feel.Loose)
        {
            return feel;
        }

        o.Problem("", $"found firm {NumberRule.Text(feel.Firm)}, light {NumberRule.Text(feel.Light)}, loose {NumberRule.Text(feel.Loose)}", "the three must rise");
        return null;
    }
}
