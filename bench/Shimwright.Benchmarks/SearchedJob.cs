using System.Globalization;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Benchmarks;

/// <summary>A job with everything that the search leaves behind: options, hull, nodes, and the λ of the chosen plan.</summary>
internal sealed class SearchedJob
{
    private SearchedJob(BenchJob job)
    {
        Job = job;
        Estimate = EngineEstimate.From(job.Request.Check, job.Request.FinestChange);
        Options = new OptionTable(job.Request, Estimate);
        Search = new PlanSearch(job.Request, Options);
        Hull = new PlanHull(job.Request, Search);
        Chosen = Hull.Choose();
        Lambda = CpSatPlan.LambdaOf(job.Request, Chosen);
    }

    public BenchJob Job { get; }

    public EngineEstimate Estimate { get; }

    public OptionTable Options { get; }

    public PlanSearch Search { get; }

    public PlanHull Hull { get; }

    public PlanPoint Chosen { get; }

    public double Lambda { get; }

    public static SearchedJob Of(BenchJob job) => new(job);

    /// <summary>The size of the job, and whether both solvers find the same plans.</summary>
    public void Describe(TextWriter to)
    {
        int fits = Options.Shared.Sum(s => s.Count) + Options.Private.Sum(p => p.Count);
        to.WriteLine(Text(
            $"{Job}: {Estimate.Valves[0].Grid.Count} grid points a valve, {fits} options above the floor, {Hull.Corners.Count} corners, {Search.Nodes} nodes"));
        (double doubt, double minutes) = new CpSatPlan(Job.Request, Options).Solve(Lambda);
        to.WriteLine(Text(
            $"  at λ = {Lambda:0.000}: {(Lambda * Chosen.NegLogChance) + Chosen.Minutes:0.00000} minutes, by CP-SAT {(Lambda * doubt) + minutes:0.00000}"));
        var other = new CpSatHull(new CpSatPlan(Job.Request, Options));
        bool same = Hull.Corners.Count == other.Corners.Count && Hull.Corners.Zip(other.Corners).All(c =>
            Math.Abs(c.First.NegLogChance - c.Second.NegLogChance) < 1e-6 && Math.Abs(c.First.Minutes - c.Second.Minutes) < 1e-6);
        to.WriteLine(Text(
            $"  hull by CP-SAT: {other.Corners.Count} corners in {other.Solves} solves, {(same ? "the same plans" : "other plans")}"));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
