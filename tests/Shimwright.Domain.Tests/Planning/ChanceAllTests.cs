using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

[Proof(Formulas.Promise, Evidence.Computed, "The average over the shared loss by plain sums.")]
public class ChanceAllTests(ITestOutputHelper output)
{
    [Fact]
    [Long]
    public void ChanceAll_SmallJobs_IsTheAverageOverTheSharedLossOfTheProduct()
    {
        double worst = 0;
        double mostShared = 0;
        foreach (int seed in Enumerable.Range(500, 8))
        {
            PlanRequest request = RandomJob.Draw(seed);
            var slow = new SlowPosterior(request.Check);
            foreach (ShimPlan plan in Planner.Plan(request).Alternatives)
            {
                double expected = slow.ChanceOfAll((v, c) => EndsInBand(plan, plan.Valves[v], c, request));
                worst = Math.Max(worst, Math.Abs(expected - plan.ChanceAll));
                mostShared = Math.Max(mostShared, plan.ChanceAll - PlanOutcome.Of(plan, request).Chance);
            }
        }

        output.WriteLine($"worst {worst:E1}; the shared cause makes up to {mostShared:E1}");
        Assert.True(worst < 1e-4, $"{worst}");
        Assert.True(mostShared > 10 * worst, "The shared cause must matter, or this test shows nothing.");
    }

    /// <summary>The chance that a valve whose clearance is c ends up in band under its line of the plan.</summary>
    private static double EndsInBand(ShimPlan plan, PlannedValve line, double c, PlanRequest request)
    {
        ClearanceBand band = line.Valve.Band;
        if (line.IsStranded)
        {
            return 1;
        }

        double seating = request.Rules.Seating.StandardDeviation;
        (double aim, double error) = (c, seating);
        if (line.Action != ValveAction.Keep)
        {
            double ratio = line.Train.Ratio;
            ThicknessDifference difference = line.From!.Minus(line.To!);
            aim += ratio * difference.Millimetres;
            error = Math.Sqrt((seating * seating) + Math.Pow(ratio * difference.Uncertainty, 2));
        }
        else if (!plan.Opened.Contains(line.Valve.Access))
        {
            return SlowGrid.Usual.ShareInBand(c, band);
        }

        return SlowLaw.Phi((band.High - aim) / error) - SlowLaw.Phi((band.Low - aim) / error);
    }
}
