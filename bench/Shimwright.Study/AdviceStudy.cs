using System.Globalization;
using Shimwright.Domain.Advice;

namespace Shimwright.Study;

/// <summary>What it brings to do what pays next until nothing more pays, and what each kind of action has of that. One line a way of working.</summary>
internal static class AdviceStudy
{
    private static ActionMinutes NoDepthGauge => ActionMinutes.Usual.Without(ActionKind.Depth);

    /// <summary>Without the second of two leaves.</summary>
    private static ActionMinutes NoStacks => new(stack: null, depth: null);

    /// <param name="to">Where it is written.</param>
    /// <param name="engines">Engines of each population.</param>
    /// <param name="seed">Where chance begins.</param>
    /// <param name="wanted">The names of the rows that are wanted; all where there are none.</param>
    public static void Run(TextWriter to, int engines, int seed, IReadOnlyList<string> wanted)
    {
        to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{engines} engines of each population, seed {seed}; ± is one standard error"));
        foreach (Population population in (Population[])[Population.Worn, Population.Dusty])
        {
            to.WriteLine();
            to.WriteLine($"### {population.Name}");
            to.WriteLine();
            to.WriteLine("| way of working | promised | right at first re-check | passed but wrong | first round, min | all rounds, min | rounds until right | swaps | bought | given back wrong, times | never finished |");
            to.WriteLine("|---|---|---|---|---|---|---|---|---|---|---|");
            foreach ((string name, Func<Strategy> make) in Rows().Where(r => wanted.Count == 0 || wanted.Contains(r.Name)))
            {
                Outcome[] jobs = [.. Enumerable.Range(0, engines).AsParallel().AsOrdered().Select(n => Study.Run(new Job(seed, population, n), make()))];
                double right = jobs.Average(o => o.RightFirst ? 1 : 0);
                double wrong = jobs.Average(o => o.PassedFirst && !o.RightFirst ? 1 : 0);
                double promised = jobs.Select(o => o.Promised).OfType<double>().DefaultIfEmpty(double.NaN).Average();
                to.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"| {name} | {promised:0.000} | {right:0.000} ± {Error(right, engines):0.000} | {wrong:0.000} ± {Error(wrong, engines):0.000} | {jobs.Average(o => o.FirstMinutes):0.0} | {jobs.Average(o => o.Minutes):0.0} | {jobs.Average(o => o.RoundsUntilRight):0.00} | {jobs.Average(o => o.Swapped):0.00} | {jobs.Average(o => o.Bought):0.00} | {jobs.Average(o => o.Returns):0.00} | {jobs.Average(o => o.IsFinished ? 0 : 1):0.000} |"));
                to.Flush();
            }
        }
    }

    private static IEnumerable<(string Name, Func<Strategy> Make)> Rows()
    {
        yield return ("plan as first felt", () => new ByPlan(measures: true));
        yield return ("advice", () => new ByAdvice(NoDepthGauge));
        yield return ("advice, with a depth gauge", () => new ByAdvice(ActionMinutes.Usual));
        yield return ("advice, no dry fits", () => new ByAdvice(NoDepthGauge.Without(ActionKind.DryFit)));
        yield return ("advice, no stacks", () => new ByAdvice(NoStacks));
        yield return ("advice, no shim of the kit measured", () => new ByAdvice(NoDepthGauge.Without(ActionKind.Micrometer)));
        yield return ("advice, no bucket by hand", () => new ByAdvice(NoDepthGauge.Without(ActionKind.Bucket)));
        yield return ("advice, no blades after the first feeling", () => new ByAdvice(NoDepthGauge.Without(ActionKind.Blade)));
    }

    private static double Error(double share, int jobs) => Math.Sqrt(share * (1 - share) / jobs);
}
