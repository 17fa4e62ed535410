using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Due;

/// <summary>What is offered of an estimated seating error, and what can be wrong with taking it.</summary>
internal static class SeatingWords
{
    /// <summary>Another device has saved settings in between.</summary>
    public static JobProblem ChangedMeanwhile { get; } =
        new("seating", "another device has changed the settings in between", "check the figure shown now and press again");

    /// <summary>The value that is offered, to a tenth of a micrometre.</summary>
    public static double Offered(SeatingEstimate estimate) => Math.Round(estimate.Seating, 4);

    /// <summary>Whether what the bench reckons with lies in the interval.</summary>
    public static bool IsSettled(SeatingEstimate estimate, double seating) => seating >= estimate.Low && seating <= estimate.High;

    /// <summary>What is wrong with a value that was sent, or null.</summary>
    public static JobProblem? Problem(double seating, int seen, int version) =>
        seen != version ? ChangedMeanwhile
        : double.IsFinite(seating) && seating is >= Seating.Least and <= Seating.Greatest ? null
        : new("seating", "the figure is out of range", $"allowed is {Seating.Least} to {Seating.Greatest} mm; reload the page");
}
