using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>Minutes, prices and the horizon.</summary>
internal sealed record CostsSection(PlanCosts Costs, double Horizon)
{
    private static readonly PlanCosts Usual = new();
    private static readonly NumberRule Minutes = new(0, PlanCosts.Greatest, Measure.Duration);

    public static NumberMember Redo { get; } = new("redo", Minutes, "What another round costs apart from lifting and swapping, minutes.", Usual.Redo);

    public static NumberMember Swap { get; } = new("swap", Minutes, "Minutes to change one valve's setting.", Usual.Swap);

    public static NumberMember MinutesPerCurrency { get; } = new(
        "minutesPerCurrency", new(0, PlanCosts.Greatest), "Minutes that one unit of currency is worth.", Usual.MinutesPerCurrency);

    public static NumberMember Disturb { get; } = new(
        "disturb", Minutes, "Minutes that changing a valve costs more where it was in band already.", Usual.Disturb);

    private static readonly NumberMember HowLong = new(
        "horizon", new(0, CheckSection.LatestClock), "How long the clearances should stay in band, on the engine's clock.", 0);

    public static CostsSection Default { get; } = new(Usual, HowLong.Usual);

    public static CostsSection Read(ObjectMembers o, EngineSection engine)
    {
        string[] groups = [.. engine.Valves.Select(v => v.Access).OfType<string>().Where(a => a != Valve.NoAccess).Distinct(StringComparer.Ordinal)];
        double redo = o.Number(Redo);
        IReadOnlyDictionary<string, double> access = o.Map("access", Minutes, groups, "Minutes to lift each access group.");
        double swap = o.Number(Swap);
        double disturb = o.Number(Disturb);
        double perCurrency = o.Number(MinutesPerCurrency);
        return new(new PlanCosts(redo, access, swap, perCurrency, disturb), o.Number(HowLong));
    }
}
