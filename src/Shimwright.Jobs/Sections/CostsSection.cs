using Shimwright.Domain.Planning;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>Minutes, prices and the horizon.</summary>
internal sealed record CostsSection(PlanCosts Costs, double Horizon)
{
    public static CostsSection Default { get; } = new(new PlanCosts(), 0);

    public static CostsSection Read(ObjectMembers o, EngineSection engine)
    {
        var minutes = new NumberRule(0, PlanCosts.Greatest, Measure.Duration);
        string[] groups = [.. engine.Valves.Select(v => v.Access).OfType<string>().Distinct(StringComparer.Ordinal)];
        double? redo = o.Number("redo", minutes, "What a second round costs before anything is lifted again, minutes.");
        IReadOnlyDictionary<string, double> access = o.Map("access", minutes, groups, "Minutes to lift each access group.");
        double? swap = o.Number("swap", minutes, "Minutes to change one valve's setting.");
        double? perCurrency = o.Number("minutesPerCurrency", new(0, PlanCosts.Greatest), "Minutes that one unit of currency is worth.");
        double? horizon = o.Number("horizon", new(0, CheckSection.LatestClock), "How long the clearances should stay in band, on the engine's clock.");

        var usual = new PlanCosts();
        return new(
            new PlanCosts(redo ?? usual.Redo, access, swap ?? usual.Swap, perCurrency ?? usual.MinutesPerCurrency),
            horizon ?? 0);
    }
}
