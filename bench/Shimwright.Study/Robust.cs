using System.Globalization;

namespace Shimwright.Study;

/// <summary>
/// Does a plan keep its promise where engines do not lose clearance as the estimate expects, and where the person's fingers
/// are not the usual ones? One line a population.
/// </summary>
internal static class Robust
{
    private const double FingersOff = 0.005;

    public static IEnumerable<Population> Populations()
    {
        int number = 100;
        foreach (LossLaw law in Enum.GetValues<LossLaw>())
        {
            foreach (double off in (double[])[0, FingersOff])
            {
                foreach (Population kind in (Population[])[Population.Worn, Population.Dusty])
                {
                    yield return kind with
                    {
                        Number = number++,
                        Name = $"{law}, {kind.Name}{(off > 0 ? ", fingers off" : "")}",
                        Lost = kind.Lost with { Law = law },
                        FingersOff = off,
                    };
                }
            }
        }
    }

    public static void Run(TextWriter to, int engines, int seed)
    {
        to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{engines} engines of each population, seed {seed}; ± is one standard error"));
        to.WriteLine();
        to.WriteLine("| population | promised | achieved | promise less achieved | right at first re-check | passed but wrong | all rounds, min | swaps | given back wrong, times |");
        to.WriteLine("|---|---|---|---|---|---|---|---|---|");
        List<double> misses = [];
        foreach (Population population in Populations())
        {
            Outcome[] jobs = Study.Run(seed, population, engines, () => new ByPlan(measures: true));
            Outcome[] promised = [.. jobs.Where(o => o.Promised is not null)];
            double promise = promised.Average(o => o.Promised!.Value);
            double kept = Share(promised, o => o.RightFirst);
            double right = Share(jobs, o => o.RightFirst);
            misses.Add(promise - kept);
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {population.Name} | {promise:0.000} | {kept:0.000} | {promise - kept:+0.000;-0.000} ± {Error(kept, promised.Length):0.000} | {right:0.000} ± {Error(right, jobs.Length):0.000} | {Share(jobs, o => o.PassedFirst && !o.RightFirst):0.000} | {jobs.Average(o => o.Minutes):0.0} | {jobs.Average(o => o.Swapped):0.00} | {jobs.Average(o => o.Returns):0.000} |"));
        }

        to.WriteLine();
        to.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"promise less achieved: greatest {misses.Max():+0.000;-0.000}, mean {misses.Average():+0.000;-0.000}, least {misses.Min():+0.000;-0.000}"));
    }

    private static double Share(Outcome[] jobs, Func<Outcome, bool> holds) => jobs.Count(holds) / (double)jobs.Length;

    private static double Error(double share, int jobs) => Math.Sqrt(share * (1 - share) / jobs);
}
