using Shimwright.Domain.Engines;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

/// <summary>People with fingers of their own, calibrated with forty trials, check engines: do the chances that are stated come true?</summary>
[Proof(Formulas.Calibration, Evidence.Simulated, "Calibrated people check engines: stated chances come true.")]
public class CalibratedPromiseTests(ITestOutputHelper output)
{
    [Fact]
    [Long]
    public void Estimate_WithCalibratedFingers_ComesTrueAsOftenAsItClaims()
    {
        (Tally interval, Tally inBand) = Promises(p => FeelCalibrator.Fit(Person.Trials(p.Fingers, 40, p.Chance)).Fit?.Feel);
        interval.AssertHolds(output, 4_000);
        inBand.AssertHolds(output, 200);
    }

    private static (Tally Interval, Tally InBand) Promises(Func<(FeelProfile Fingers, SeededChance Chance), FeelProfile?> believed)
    {
        var chance = new SeededChance(60_601);
        var interval = new Tally("inside the 95 % interval");
        var inBand = new Tally("in band", 0.1, 0.5, 0.9, 0.98);
        for (int people = 0; people < Effort.Cases(1_500, 10_000);)
        {
            FeelProfile fingers = Person.Drawn(chance);
            if (believed((fingers, chance)) is not { } feel)
            {
                continue;
            }

            people++;
            var engine = new SimulatedEngine(chance, 2, fingers, feel);
            foreach ((int v, ClearanceDistribution clearance) in EngineEstimate.From(engine.Check).Valves.Index())
            {
                ClearanceBand band = clearance.Band;
                ClearanceEstimate estimate = clearance.Summarise();
                interval.Add(0.95, engine.Clearances[v] >= estimate.Low && engine.Clearances[v] <= estimate.High);
                inBand.Add(estimate.InBand, engine.Clearances[v] >= band.Low && engine.Clearances[v] <= band.High);
            }
        }

        return (interval, inBand);
    }
}
