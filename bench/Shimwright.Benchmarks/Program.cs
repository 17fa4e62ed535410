using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using Perfolizer.Horology;

namespace Shimwright.Benchmarks;

internal static class Program
{
    /// <summary>With "profile": sizes of the jobs and where the time goes. Without: the benchmarks.</summary>
    private static int Main(string[] args)
    {
        if (args is ["profile"])
        {
            foreach (BenchJob job in BenchJob.All)
            {
                var searched = SearchedJob.Of(job);
                searched.Describe(Console.Out);
                StageProfile.Print(Console.Out, searched);
            }

            return 0;
        }

        Job quick = Job.Default
            .WithLaunchCount(1)
            .WithWarmupCount(6)
            .WithIterationCount(10)
            .WithIterationTime(TimeInterval.FromMilliseconds(250));

        // The fastest beside the mean: on a shared machine it says what the code costs.
        IConfig config = DefaultConfig.Instance.AddJob(quick).AddColumn(StatisticColumn.Min);
        BenchmarkSwitcher.FromTypes([typeof(PlanBenchmarks), typeof(StopsBenchmarks)]).Run(args.Contains("--filter") ? args : ["--filter", "*", .. args], config);
        return 0;
    }
}
