using Shimwright.Jobs.Bounds;

namespace Shimwright.Jobs.Members;

/// <summary>As many problems as anybody reads. One more than that means that there are more, and ends the reading.</summary>
public static class FirstProblems
{
    private const string Unread = "and more";
    private const string Next = "correct these first, then try again";

    /// <summary>Whether so much is wrong already that nothing more is read.</summary>
    /// <typeparam name="T">Problems of a job or of a table.</typeparam>
    /// <param name="problems">What was found so far.</param>
    /// <returns>Whether it is.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="problems"/> is null.</exception>
    public static bool AreEnough<T>(ICollection<T> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        return problems.Count > Limits.MostProblems;
    }

    /// <summary>The problems to show: all of them, or the first ones and how many more there are.</summary>
    /// <param name="problems">All that were found.</param>
    /// <returns>At most <see cref="Limits.MostProblems"/>, and one that says that there are more.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="problems"/> is null.</exception>
    public static IReadOnlyList<JobProblem> Of(IReadOnlyList<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        if (problems.Count <= Limits.MostProblems || (problems.Count == Limits.MostProblems + 1 && IsRest(problems[^1])))
        {
            return problems;
        }

        string more = problems.Any(IsRest) ? Unread : FormattableString.Invariant($"and {problems.Count - Limits.MostProblems} more");
        return [.. problems.Take(Limits.MostProblems), new("$", more, Next)];
    }

    /// <summary>What a reader found, each once; where it stopped, that there is more.</summary>
    internal static IReadOnlyList<JobProblem> OfReading(IReadOnlyCollection<JobProblem> found) => found.Count <= Limits.MostProblems
        ? [.. found.Distinct()]
        : [.. found.Distinct().Take(Limits.MostProblems), new("$", Unread, Next)];

    /// <summary>The same of a table, in the order of its lines.</summary>
    internal static IReadOnlyList<T> OfTable<T>(IReadOnlyCollection<T> found, Func<T, int> line, Func<string, string, T> rest) => found.Count <= Limits.MostProblems
        ? [.. found.OrderBy(line)]
        : [.. found.OrderBy(line).Take(Limits.MostProblems), rest(Unread, Next)];

    private static bool IsRest(JobProblem problem) => problem.Allowed == Next;
}
