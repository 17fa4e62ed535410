using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>Runs one strategy over the engines of a population.</summary>
internal static class Study
{
    public const int MostRounds = 6;

    public static Outcome[] Run(int seed, Population population, int engines, Func<Strategy> strategy) =>
        [.. Enumerable.Range(0, engines).Select(number => Run(new Job(seed, population, number), strategy()))];

    /// <summary>
    /// Work and re-check until the mechanic is content and right to be. One that is content and wrong gets the
    /// engine back and feels it afresh; one that is not works on with the readings of the re-check.
    /// </summary>
    public static Outcome Run(Job job, Strategy strategy)
    {
        bool isFelt = Fingers.Reach(job.Clearances);
        bool rightFirst = false, passedFirst = false, right = false, passes = false;
        int untilRight = MostRounds, returns = 0;
        double firstMinutes = 0;
        strategy.Note(job, job.Feel());
        while (job.Round < MostRounds && !(right && passes))
        {
            job.Work(strategy.Decide(job));
            strategy.Note(job, job.Feel());
            right = job.IsRight;
            passes = strategy.Passes(job);
            untilRight = right ? Math.Min(untilRight, job.Round) : untilRight;
            if (job.Round == 1)
            {
                (rightFirst, passedFirst, firstMinutes) = (right, passes, job.Minutes);
            }

            if (passes && !right)
            {
                returns++;
                strategy.Note(job, job.Feel());
            }
        }

        return new()
        {
            RightFirst = rightFirst,
            PassedFirst = passedFirst,
            IsFelt = isFelt,
            IsFinished = right && passes,
            RoundsUntilRight = untilRight,
            Returns = returns,
            FirstMinutes = firstMinutes,
            Minutes = job.Minutes,
            Swapped = job.Swapped,
            Bought = job.Bought,
            Promised = strategy.FirstChance,
        };
    }
}
