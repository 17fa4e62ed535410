using BenchmarkDotNet.Attributes;
using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;

namespace Shimwright.Benchmarks;

/// <summary>The fewest stops for twelve cylinders with 24 valves, even firing and uneven.</summary>
[MemoryDiagnoser]
public class StopsBenchmarks
{
    private CrankLayout _layout = null!;

    /// <summary>"even": a cylinder every 60 degrees; "uneven": pairs 30 and 90 degrees apart, as in a V12 of another angle.</summary>
    [Params("even", "uneven")]
    public string Firing { get; set; } = "";

    [GlobalSetup]
    public void Prepare()
    {
        int[] order = [1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10];
        double[] angles = [.. order.Select((_, k) => Firing == "even" ? k * 60.0 : (k / 2 * 120.0) + (k % 2 * 30.0))];
        _layout = new CrankLayout(order, angles, [.. order.Order().SelectMany(c => new[]
        {
            new TimedValve($"I{c}", c, ValveSide.Intake, new CamEvents(12, 48), []),
            new TimedValve($"E{c}", c, ValveSide.Exhaust, new CamEvents(46, 10), []),
        })]);
    }

    [Benchmark(Baseline = true, Description = "stops, marks only")]
    public StopPlan? AtMarks() => StopPlan.For(_layout, anywhere: false);

    [Benchmark(Description = "stops, at any angle")]
    public StopPlan? Anywhere() => StopPlan.For(_layout, anywhere: true);
}
