using Shimwright.Bench.Contents;
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
        : [new("name", $"found \"{typed}\"", $"type the engine's name as it stands here: {name.Trim()}")];

    /// <summary>What an engine is carried away in before it is removed: its card, its jobs and their facts.</summary>
    /// <param name="contents">The bench.</param>
    /// <param name="engine">The engine.</param>
    /// <returns>A bench with this engine alone; the drawer, the trials and the settings are no part of it.</returns>
    /// <exception cref="ArgumentNullException">There is no bench.</exception>
    public static BenchContents Alone(BenchContents contents, Guid engine)
    {
        ArgumentNullException.ThrowIfNull(contents);
        KeptEngine[] engines = [.. contents.Engines.Where(e => e.Id == engine)];
        KeptJob[] jobs = [.. contents.Jobs.Where(j => j.EngineId == engine)];
        HashSet<Guid> ids = [.. jobs.Select(j => j.Id)];
        return new()
        {
            Engines = engines,
            Cards = [.. contents.Cards.Where(c => engines.Any(e => e.CardId == c.Id))],
            Jobs = jobs,
            Facts = [.. contents.Facts.Where(f => ids.Contains(f.Job))],
        };
    }
}
