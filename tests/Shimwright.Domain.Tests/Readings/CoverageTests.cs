using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>Do the claims of an estimate come true? Engines drawn from the expectation itself, from a fixed seed.</summary>
[Proof(Formulas.Estimate, Evidence.Simulated, "Engines drawn from what is expected: intervals and chances come true.")]
public class CoverageTests(ITestOutputHelper output)
{
    private const int Engines = 600;

    [Fact]
    [Long]
    public void Estimates_SimulatedEngines_ComeTrueAsOftenAsTheyClaim()
    {
        var chance = new SeededChance(20250);
        var interval = new Tally("inside the 95 % interval");
        var below = new Tally("below it");
        var inBand = new Tally("in band", 0.02, 0.1, 0.3, 0.5, 0.7);
        var oneCause = new Tally("one cause", 0.2, 0.4, 0.6);
        for (int i = 0; i < Engines; i++)
        {
            var engine = new SimulatedEngine(chance, chance.Whole(2, 4));
            EngineEstimate estimate = EngineEstimate.From(engine.Check);
            oneCause.Add(estimate.SharedCauseProbability!.Value, engine.IsOneCause);
            for (int v = 0; v < engine.Clearances.Length; v++)
            {
                double truth = engine.Clearances[v];
                ClearanceEstimate claim = estimate.Valves[v].Summarise();
                ClearanceBand band = estimate.Valves[v].Band;
                interval.Add(0.95, truth >= claim.Low && truth <= claim.High);
                below.Add(0.025, truth < claim.Low);
                inBand.Add(claim.InBand, truth >= band.Low && truth <= band.High);
            }
        }

        Assert.True(inBand.Count > 2000);
        interval.AssertHolds(output, 2000);
        below.AssertHolds(output, 2000);
        inBand.AssertHolds(output, 200);
        oneCause.AssertHolds(output, 30);
    }
}
