using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Readings;

/// <summary>Readings and what they come to, as numbers. Every one of them: common practice, no source.</summary>
[Proof(Formulas.Estimate, Evidence.Published, "Readings and what they come to. Common practice, no source.")]
public class TradeFactTests
{
    private static readonly ClearanceBand Intake = new(0.10, 0.17), Exhaust = new(0.15, 0.22);

    // Common practice, no source: loose at 0.10, light at 0.13 and firm at 0.15 is a clearance of 0.13 to 0.14.
    [Fact]
    public void Estimate_LooseLightFirm_ReadsAsTheBladeThatSlides()
    {
        ClearanceEstimate valve = Estimate(Intake, (0.10, Feel.Loose), (0.13, Feel.Light), (0.15, Feel.Firm));

        Assert.InRange(valve.Mean, 0.13, 0.14);
        Assert.Equal(ClearanceStatus.In, valve.Status);
    }

    // Common practice, no source: a single light blade is the clearance, to 0.01 mm. The band is 0.10-0.17;
    // where it is 0.05-0.15 the model reads the same trial as 0.099.
    [Fact]
    public void Estimate_OneLightBlade_ReadsAsThatBlade()
    {
        ClearanceEstimate valve = Estimate(Intake, (0.10, Feel.Light));

        Assert.InRange(valve.Mean, 0.10, 0.11);
        Assert.Equal(ClearanceStatus.Unsettled, valve.Status);
    }

    // Common practice, no source: the same on the exhaust side, with 0.15, 0.18 and 0.20.
    [Fact]
    public void Estimate_LooseLightFirmOnTheExhaust_ReadsAsTheBladeThatSlides()
    {
        ClearanceEstimate valve = Estimate(Exhaust, (0.15, Feel.Loose), (0.18, Feel.Light), (0.20, Feel.Firm));

        Assert.InRange(valve.Mean, 0.18, 0.19);
        Assert.Equal(ClearanceStatus.In, valve.Status);
    }

    // Common practice, no source: no blade at 0.05 and a lower limit of 0.10: a shim thinner by 0.10 mm at least,
    // two steps of 0.05; the gap may be 0.
    [Theory]
    [InlineData(0.15)]
    [InlineData(0.17)]
    [InlineData(0.20)]
    public void Plan_ThinnestBladeWillNotEnter_GoesAtLeastTwoSizesThinner(double upperLimit)
    {
        const double old = 2.60, step = 0.05;
        IEnumerable<PurchasableSize> kit = new SizeRange(1.20, 3.50, step, 0).Sizes(Instrument.Marked);
        EngineCheck check = OneValveEngine.Check(
            new ClearanceBand(0.10, upperLimit), OneValveEngine.Felt((0.05, Feel.No)));

        PlannedValve valve = Planner
            .Plan(new PlanRequest(check, [new Thickness(old, Instrument.Marked)], new Stock([], [.. kit])))
            .Chosen.Valves[0];

        Assert.InRange(valve.To!.Millimetres, 0, old - (2 * step) + 1e-9);
        // Nor is the gap that was found a number: it is anything from the blade down to a valve held open.
        Assert.True(valve.Estimate.Low < 0 && valve.Estimate.High > 0);
    }

    private static ClearanceEstimate Estimate(ClearanceBand band, params (double Blade, Feel Feel)[] trials) =>
        EngineEstimate.From(OneValveEngine.Check(band, OneValveEngine.Felt(trials))).Valves[0].Summarise();
}
