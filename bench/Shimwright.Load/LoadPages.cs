using Shimwright.Jobs.Fitting;

namespace Shimwright.Load;

/// <summary>The pages that are asked for, each time for another engine or job.</summary>
internal static class LoadPages
{
    public static IReadOnlyList<(string Page, Func<string> Address)> Of(FilledBench bench)
    {
        var random = new Random(815);
        IReadOnlyList<Guid> open = bench.Open;
        string Any(IReadOnlyList<Guid> ids) => ids[random.Next(ids.Count)].ToString();
        Guid[] planned = [.. bench.JobsAt(JobStage.Plan), .. bench.JobsAt(JobStage.Fit), .. bench.JobsAt(JobStage.Recheck), .. bench.JobsAt(JobStage.Close)];
        return
        [
            ("bench", () => "/"),
            ("engines", () => random.Next(2) == 0 ? "/engines" : FormattableString.Invariant($"/engines?q=engine%200{random.Next(100):00}")),
            ("engine", () => $"/engines/{Any(bench.Engines)}"),
            ("card", () => $"/engines/{Any(bench.Engines)}/card"),
            ("measure", () => $"/jobs/{Any(open)}/measure"),
            ("plan", () => $"/jobs/{Any(planned)}/plan"),
            ("record", () => $"/jobs/{Any(bench.JobsAt(JobStage.Closed))}/record"),
            ("due", () => "/due"),
            ("wear", () => $"/engines/{Any(bench.Engines)}/wear"),
            ("settings", () => "/settings"),
        ];
    }
}
