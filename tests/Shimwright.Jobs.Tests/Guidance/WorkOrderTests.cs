using Shimwright.Domain.Engines;
using Shimwright.Jobs.Guidance;

namespace Shimwright.Jobs.Tests.Guidance;

/// <summary>What must not be missing from the order of work. Every one of them: common practice, no source.</summary>
public class WorkOrderTests
{
    [Theory]
    [InlineData(Adjuster.ShimUnderBucket)]
    [InlineData(Adjuster.GradedBucket)]
    [InlineData(Adjuster.FingerFollower)]
    public void StepsFor_CamshaftsThatComeOut_TurnTheCrankToTheTimingPositionBeforeTheFirstCap(Adjuster adjuster)
    {
        string[] steps = [.. WorkOrder.StepsFor(adjuster)];
        int turned = Array.FindIndex(steps, s => s.Contains("timing position", StringComparison.Ordinal));
        int loosened = Array.FindIndex(steps, s => s.StartsWith("Loosen the caps", StringComparison.Ordinal));
        Assert.InRange(turned, 0, loosened - 1);
    }

    [Fact]
    public void StepsFor_ShimsOverBuckets_NeverTurnTheEngineWithAShimOut() =>
        Assert.Contains(WorkOrder.StepsFor(Adjuster.ShimOverBucket), s => s.StartsWith("Never turn the engine with a shim out", StringComparison.Ordinal));

    [Theory]
    [InlineData(Adjuster.ShimUnderBucket, "inside of its bucket")]
    [InlineData(Adjuster.FingerFollower, "stick to the finger")]
    public void StepsFor_SmallShims_MayStick(Adjuster adjuster, string words) =>
        Assert.Contains(WorkOrder.StepsFor(adjuster), s => s.Contains("may stick", StringComparison.Ordinal) && s.Contains(words, StringComparison.Ordinal));

    // Beside every instruction to turn the crank there is the caution.
    [Fact]
    public void StepsFor_EveryInstructionToTurn_HasItsCaution()
    {
        string[] turns =
        [
            .. Enum.GetValues<Adjuster>().SelectMany(a => WorkOrder.StepsFor(a)).Concat(WorkOrder.NothingToDo).Concat(WorkOrder.StaysOpen)
                .Where(s => s.Contains("Turn the crank to", StringComparison.Ordinal) || s.Contains("Rotate the engine", StringComparison.Ordinal)
                    || s.Contains("Turn the engine over", StringComparison.Ordinal) || s.StartsWith("Bring each cylinder", StringComparison.Ordinal)),
        ];
        Assert.Equal(4, turns.Distinct().Count());
        Assert.All(turns, s => Assert.EndsWith(WorkOrder.WhileTurning, s, StringComparison.Ordinal));
    }
}
