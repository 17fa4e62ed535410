using BenchmarkDotNet.Attributes;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Benchmarks;

/// <summary>A whole plan, its parts, and a general solver on the same choice.</summary>
[MemoryDiagnoser]
public class PlanBenchmarks
{
    private PlanRequest _request = null!;
    private OptionTable _options = null!;
    private PlanPoint _chosen = null!;

    /// <summary>The job.</summary>
    [ParamsSource(nameof(Jobs))]
    public BenchJob Job { get; set; } = null!;

    public static IEnumerable<BenchJob> Jobs => BenchJob.All;

    [GlobalSetup]
    public void Prepare()
    {
        _request = Job.Request;
        var searched = SearchedJob.Of(Job);
        _options = searched.Options;
        _chosen = searched.Hull.Chosen;
    }

    [Benchmark(Description = "estimate")]
    public EngineEstimate Estimate() => EngineEstimate.From(_request.Check, _request.FinestChange);

    [Benchmark(Baseline = true, Description = "plan, estimate included")]
    public PlanChoice Plan() => Planner.Plan(_request);

    [Benchmark(Description = "plan with a horizon, no past")]
    public PlanChoice Lasting() => Planner.Plan(Job.Lasting);

    [Benchmark(Description = "plan with a horizon and a past")]
    public PlanChoice LastingWithPast() => Planner.Plan(Job.LastingWithPast);

    [Benchmark(Description = "search of the hull, options given")]
    public object Search() => new PlanHull(new PlanSearch(_request, _options));

    [Benchmark(Description = "CP-SAT, one solve, options and tangent given")]
    public double CpSatOnce() => new CpSatPlan(_request, _options, _chosen).Solve();
}
