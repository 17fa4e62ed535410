using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Engines;

/// <summary>What a retired engine cannot have.</summary>
internal static class RetiredRules
{
    /// <summary>Why no job is started on an engine, or null.</summary>
    public static JobProblem? ProblemOf(StoredEngine engine) =>
        engine.RetiredAt is null ? null : new("engine", $"{engine.Name} is retired", "put it back into use first, on its page");
}
