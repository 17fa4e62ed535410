using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>Clock and temperature of a round.</summary>
internal sealed class ConditionsInput : ActionForm
{
    public string? Clock { get; set; }

    public string? Temperature { get; set; }

    public SentFacts Read(SheetPart part, string clockUnit) => SentFacts.Of(this, problems =>
    {
        double? temperature = TypedNumber.Temperature(Temperature, "temperature").Note(problems);
        if (part == SheetPart.Recheck)
        {
            return temperature is { } t ? new RecheckStated(t) : null;
        }

        double? clock = TypedNumber.Clock(Clock, "clock", clockUnit).Note(problems);
        return clock is { } c && temperature is { } at ? new CheckStated(c, at) : null;
    });
}

/// <summary>What is suspected to have moved the valves.</summary>
internal sealed class SuspectedSent : ActionForm
{
    public string? Cause { get; set; }

    public SentFacts Read() => SentFacts.Of(this, problems =>
    {
        if (!string.IsNullOrEmpty(Cause))
        {
            return new LossSuspected(Cause);
        }

        problems.Add(new("suspected", "nothing was chosen", "choose one of the causes"));
        return null;
    });
}
