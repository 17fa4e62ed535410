using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The member "loss": how much clearance is expected to have gone, or that the head was worked on.</summary>
internal static class LossSection
{
    /// <summary>The cause after which nothing is known of the clearances of a side.</summary>
    public const string HeadWork = "head work";

    private static readonly NumberRule Rule = new(LossPrior.LeastMean, LossPrior.GreatestMean, Measure.Length);
    private static readonly NumberMember Shared = new("shared", Rule, "Scale of the loss that the valves share, mm.", LossPrior.Ordinary.Shared);
    private static readonly NumberMember Own = new("own", Rule, "Mean of the loss that each valve has on its own, mm.", LossPrior.Ordinary.Own);
    private static readonly IReadOnlyDictionary<string, bool> Causes = new Dictionary<string, bool> { [HeadWork] = true };

    public static LossPrior Read(ObjectMembers o)
    {
        (double shared, double own) = (o.Number(Shared), o.Number(Own));
        bool? cause = o.Choice("cause", Causes, "What was done: seats were cut, valves ground or new parts fitted.");
        ValveSide[]? sides = o.Choices("sides", ValveSection.Sides, (1, 2), "The sides that were worked on; both if left out.");
        if (cause is null && o.Has("sides") && !o.Has("cause"))
        {
            o.Problem("sides", "found sides without a cause", $"they go with \"cause\": \"{HeadWork}\"");
        }

        return cause is null
            ? new(shared, own)
            : new(shared, own, sides?.Contains(ValveSide.Intake) ?? true, sides?.Contains(ValveSide.Exhaust) ?? true);
    }
}
