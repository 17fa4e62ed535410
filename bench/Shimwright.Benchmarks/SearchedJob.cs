using System.Globalization;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Benchmarks;

/// <summary>A job with everything that the search leaves behind: options, hull, parts and assignments.</summary>
internal sealed class SearchedJob
{
    private SearchedJob(BenchJob job)
    {
        Job = job;
        Estimate = EngineEstimate.From(job.Request.Check, job.Request.FinestChange);
        Options = new OptionTable(job.Request, Estimate);
        Search = new PlanSearch(job.Request, Options);
        Hull = new PlanHull(Search);
    }

    public BenchJob Job { get; }

    public EngineEstimate Estimate { get; }

    public OptionTable Options { get; }

    public PlanSearch Search { get; }

    public PlanHull Hull { get; }

    public static SearchedJob Of(BenchJob job) => new(job);

    /// <summary>The size of the job, and what another solver finds on the tangent at the chosen plan.</summary>
    public void Describe(TextWriter to)
    {
        int fits = Options.Shared.Sum(s => s.Count) + Options.Private.Sum(p => p.Count);
        to.WriteLine(Text(
            $"{Job}: {Estimate.Valves[0].Grid.Count} grid points a valve, {fits} options above the floor, {Hull.Corners.Count} alternatives, {Search.Nodes} parts, {Search.Assignments} assignments"));
        PlanPoint chosen = Hull.Chosen;
        to.WriteLine(Text(
            $"  {chosen.Minutes:0.00000} minutes; on the tangent there, by CP-SAT, {new CpSatPlan(Job.Request, Options, chosen).Solve():0.00000}"));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
