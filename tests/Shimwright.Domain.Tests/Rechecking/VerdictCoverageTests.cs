using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Tests.Planning;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Rechecking;

/// <summary>Do verdicts come true? Plans are carried out on simulated engines, one change in twenty goes wrong, and all is felt again.</summary>
[Proof(Formulas.Recheck, Evidence.Simulated, "Plans carried out, one change in twenty wrong: verdicts come true.")]
public class VerdictCoverageTests(ITestOutputHelper output)
{
    private const int Engines = 300;

    [Fact]
    [Long]
    public void Verdicts_SimulatedRechecks_ComeTrueAsOftenAsTheyClaim()
    {
        var chance = new SeededChance(31337);
        var interval = new Tally("inside the 95 % interval");
        var inBand = new Tally("in band", 0.1, 0.5, 0.9, 0.98);
        for (int i = 0; i < Engines; i++)
        {
            var engine = new SimulatedEngine(chance, 2);
            PlanRequest request = CarriedOut.Request(engine, chance);
            ShimPlan plan = Planner.Plan(request).Chosen;
            double[] after = CarriedOut.Clearances(plan, engine.Clearances, chance);
            Adjustment[] changes =
            [
                .. plan.Valves.Index().Where(l => l.Item.To is not null)
                    .Select(l => Adjustment.Fitted(l.Index, l.Item.From!, l.Item.To!)),
            ];
            foreach (Adjustment change in changes.Where(_ => chance.Happens(0.05)))
            {
                double middle = plan.Valves[change.Valve].Valve.Band.Middle;
                after[change.Valve] = chance.Uniform(middle - 0.5, middle + 0.5);
            }

            engine.BeginAnotherCheck();
            ValveReadings[] readings = [.. plan.Valves.Select((l, v) => engine.Feel(l.Valve.Band, after[v]))];
            RecheckVerdict verdict = RecheckVerdict.On(new Recheck(engine.Check, changes, readings, 20, request.Rules.Seating));
            foreach ((int v, RecheckedValve valve) in verdict.Valves.Index())
            {
                ClearanceBand band = valve.Valve.Band;
                interval.Add(0.95, after[v] >= valve.Estimate.Low && after[v] <= valve.Estimate.High);
                inBand.Add(valve.Estimate.InBand, after[v] >= band.Low && after[v] <= band.High);
            }
        }

        interval.AssertHolds(output, 1200);
        inBand.AssertHolds(output, 40);
    }
}
