using System.Diagnostics;
using System.Globalization;
using Shimwright.Domain.Advice;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Benchmarks;

/// <summary>
/// Where the time of a plan goes, stage by stage: the fastest and the median of many runs after a warm-up. On a
/// shared machine the fastest says what the code costs, the median what was had.
/// </summary>
internal static class StageProfile
{
    private const int WarmUp = 60;
    private const int Runs = 61;

    /// <summary>Of what takes long.</summary>
    private const int FewRuns = 9;

    public static void Print(TextWriter to, SearchedJob job)
    {
        PlanRequest request = job.Job.Request;
        (EngineEstimate estimate, OptionTable options) = (job.Estimate, job.Options);
        double finest = request.FinestChange;
        PlanWriter Writer() => new(request, estimate, options);

        void Stage<T>(string name, Func<T> run, int runs = Runs)
        {
            (double fastest, double median) = Time(run, runs);
            to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {name,-42} {fastest,8:0.000} {median,8:0.000} ms"));
        }

        Stage("estimate", () => EngineEstimate.From(request.Check, finest));
        Stage("  of which the likelihoods", () => Likelihoods(estimate));
        Stage("option table", () => new OptionTable(request, estimate));
        Stage("hull search", () => new PlanHull(new PlanSearch(request, options)));
        Stage("writing all plans", () => job.Hull.Corners.Select(Writer().Write).Count());
        Stage("Planner.Plan, all of the above", () => Planner.Plan(request));
        Stage("the same with a horizon, no past", () => Planner.Plan(job.Job.Lasting));
        Stage("the same with a horizon and a past", () => Planner.Plan(job.Job.LastingWithPast));
        Stage("the next thing worth doing", () => Advisor.For(new AdviceRequest(request, BenchJob.Blades)), FewRuns);
        Stage("then ChanceAll and After of the chosen", () => Read(Writer().Write(job.Hull.Chosen)));
        Stage("then ChanceAll and After of all plans", () => job.Hull.Corners.Select(Writer().Write).Sum(Read));
    }

    private static double Likelihoods(EngineEstimate estimate)
    {
        var offsets = CheckOffsets.For(estimate.Check, new Resolution(estimate.Valves[0].Grid.Step), 0);
        return estimate.Valves.Index().Sum(v => new OffsetLikelihood(
            v.Item.Grid, new Likelihood(estimate.Check.Readings[v.Index], estimate.Check.Feel, new Resolution(estimate.Valves[0].Grid.Step)), estimate.Check.ShiftAt(v.Index), offsets).At(0, 0));
    }

    /// <summary>Everything of a plan that is computed when it is asked for.</summary>
    private static double Read(ShimPlan plan) => plan.ChanceAll + plan.Valves.Sum(v => v.After?.Mean ?? 0);

    private static (double Fastest, double Median) Time<T>(Func<T> run, int runs)
    {
        for (int i = 0; i < Math.Min(WarmUp, runs); i++)
        {
            GC.KeepAlive(run());
        }

        double[] times = new double[runs];
        for (int i = 0; i < runs; i++)
        {
            long start = Stopwatch.GetTimestamp();
            GC.KeepAlive(run());
            times[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        Array.Sort(times);
        return (times[0], times[runs / 2]);
    }
}
