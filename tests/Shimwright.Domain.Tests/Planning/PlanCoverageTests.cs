using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Do plans come true? Each is carried out on the engine it was made for, with true shims and true hands.</summary>
[Proof(Formulas.Plan, Evidence.Simulated, "Plans carried out with true shims and hands: they succeed as often as they claim.")]
public class PlanCoverageTests(ITestOutputHelper output)
{
    private const int Engines = 600;

    [Fact]
    [Long]
    public void Plans_CarriedOutOnSimulatedEngines_SucceedAsOftenAsTheyClaim()
    {
        var chance = new SeededChance(555);
        var each = new Tally("a valve in band afterwards", 0.9, 0.97);
        var changed = new Tally("a changed valve in band afterwards");
        var all = new Tally("all in band afterwards", 0.2, 0.4, 0.6);
        for (int i = 0; i < Engines; i++)
        {
            var engine = new SimulatedEngine(chance, 2);
            ShimPlan plan = Planner.Plan(CarriedOut.Request(engine, chance)).Chosen;
            double[] after = CarriedOut.Clearances(plan, engine.Clearances, chance);
            bool allIn = true;
            foreach ((int v, PlannedValve line) in plan.Valves.Index().Where(l => !l.Item.IsStranded))
            {
                ClearanceBand band = line.Valve.Band;
                bool isIn = after[v] >= band.Low && after[v] <= band.High;
                each.Add(line.Chance!.Value, isIn);
                allIn &= isIn;
                if (line.Action == ValveAction.Fit)
                {
                    changed.Add(line.Chance.Value, isIn);
                }
            }

            all.Add(plan.ChanceAll, allIn);
        }

        each.AssertHolds(output, 100);
        changed.AssertHolds(output, 300);
        all.AssertHolds(output, 60);
    }
}
