using Shimwright.Domain.Depth;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Uncertainty;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The member "depth" of a reading: a clearance from depths under one of the check's camshafts.</summary>
internal static class DepthSection
{
    public static DepthBudget? Read(ObjectMembers reading, EngineSection engine, IReadOnlyList<CamshaftSection> camshafts, string? valve) =>
        reading.Object("depth", o => ReadOne(o, engine, camshafts, valve), "The clearance from a depth taken with the camshaft lifted.");

    private static DepthBudget? ReadOne(ObjectMembers o, EngineSection engine, IReadOnlyList<CamshaftSection> camshafts, string? valve)
    {
        string? name = o.Name("camshaft", "The camshaft over the valve, one of the check's camshafts.", required: true);
        ValveDepth? depth = CamshaftSection.ReadDepth(o, "");
        if (engine.Adjuster is Adjuster.FingerFollower or Adjuster.Screw)
        {
            o.Problem("", "found a depth", "depths give a clearance where the cam acts on the bucket itself; say value and u instead");
            return null;
        }

        CamshaftSection? camshaft = camshafts.FirstOrDefault(c => c.Name is not null && c.Name == name);
        if (name is not null && camshaft is null)
        {
            string known = camshafts.Count == 0 ? "there is none in camshafts" : $"known here: {string.Join(", ", camshafts.Select(c => $"\"{c.Name}\""))}";
            o.Problem("camshaft", $"found \"{name}\", which is no camshaft of this check", known);
        }

        if (camshaft?.Known?.Valve is { } same && same == valve)
        {
            o.Problem("", $"found a depth of {same}, against which the others are taken", "its clearance is known already; leave it out or say value");
            return null;
        }

        if (depth is null || valve is null || BudgetOf(depth, camshaft) is not { } budget)
        {
            return null;
        }

        if (budget.Combined > DirectValue.GreatestUncertainty)
        {
            o.Problem("", $"found a combined standard uncertainty of {NumberRule.Text(Math.Round(budget.Combined, 4))}", $"allowed is up to {NumberRule.Text(DirectValue.GreatestUncertainty)} mm");
            return null;
        }

        return new(valve, name!, camshaft!.Known?.Valve, budget);
    }

    private static UncertaintyBudget? BudgetOf(ValveDepth depth, CamshaftSection? camshaft) => camshaft switch
    {
        { Known: { } known } => DepthReading.Against(depth, known.Depth, known.Clearance),
        { Sizes: { } sizes } => DepthReading.Under(depth, sizes),
        _ => null,
    };
}
