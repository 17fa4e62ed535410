using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Engines;

/// <summary>When an engine is removed for good, with its jobs and their records.</summary>
public static class RemovalRules
{
    /// <summary>What keeps an engine from being removed.</summary>
    /// <param name="name">The engine's name; null where there is no such engine.</param>
    /// <param name="typed">What was typed to confirm it.</param>
    /// <returns>The problems; none where it is removed.</returns>
    public static IReadOnlyList<JobProblem> ProblemsOf(string? name, string typed) =>
        name is null ? [new("engine", "there is no such engine", "it may have been removed already: look in the list of engines")]
        : string.Equals(name.Trim(), typed?.Trim(), StringComparison.Ordinal) ? []
        : [new("name", $"found \"{typed}\"", $"type the engine's name exactly: {name.Trim()}")];
}
