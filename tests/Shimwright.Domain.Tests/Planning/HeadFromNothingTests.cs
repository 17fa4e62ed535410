using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>
/// A head built from nothing: seats were cut, a base shim or lash cap of known thickness was laid at every valve, and the gaps
/// are wherever that puts them. Common practice, no source.
/// </summary>
public class HeadFromNothingTests
{
    // By hand: 0.62 with 2.00 wants 2.00 + 0.62 - 0.15 = 2.47, and -0.11 with 2.00 wants 1.74; the same from a lash cap of 1.20.
    [Theory]
    [InlineData(2.00, 2.47, 1.74)]
    [InlineData(1.20, 1.67, 0.94)]
    [InlineData(11.20, 11.67, 10.94)]
    public void Plan_GapsOfBaseShims_FitsWhatTheyWant(double laid, double first, double second)
    {
        Engine engine = Made.Engine(Made.Valve("I1"), Made.Valve("I2"));
        var check = new EngineCheck(engine, [Made.Value(0.62, 0.005), Made.Value(-0.11, 0.005)], loss: LossPrior.HeadWork(intake: true, exhaust: true));
        IEnumerable<PurchasableSize> sizes = new SizeRange(laid - 0.5, laid + 0.6, 0.01, 0).Sizes(Instrument.Micrometer);
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [Made.Measured(laid), Made.Measured(laid)], new Stock([], [.. sizes]))).Chosen;
        Assert.Equal(first, plan.Valves[0].To!.Millimetres, 0.0101);
        Assert.Equal(second, plan.Valves[1].To!.Millimetres, 0.0101);
    }

    // By hand: N(0.15, 0.25²) cut off where the 0.05 blade would go in, 0.025 below it, has the mean 0.15 - 1.141·0.25 = -0.135 and
    // the standard deviation 0.25·√(1 + 0.5·1.141 - 1.141²) = 0.130; one trial in fifty is a slip and adds a little to both.
    [Fact]
    public void From_NoBladeInAFreshHead_IsAsWideAsTheWork()
    {
        Engine engine = Made.Engine(Made.Valve("I1"));
        ClearanceEstimate fresh = EngineEstimate.From(new EngineCheck(
            engine, [Made.Felt((0.05, Feel.No))], loss: LossPrior.HeadWork(intake: true, exhaust: true))).Valves[0].Summarise();
        Assert.Equal(-0.135, fresh.Mean, 0.012);
        Assert.Equal(0.130, fresh.StandardDeviation, 0.015);
    }
}
