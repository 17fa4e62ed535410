using Xunit.v3;

namespace Shimwright.Testing;

/// <summary>How much a run takes upon itself: see "Tests" in CONTRIBUTING.md.</summary>
internal static class Effort
{
    /// <summary>The variable by which the script says which.</summary>
    public const string Variable = "SHIMWRIGHT_TEST_EFFORT";

    public static bool IsQuick { get; } = Environment.GetEnvironmentVariable(Variable) == "quick";

    public static bool IsNightly { get; } = Environment.GetEnvironmentVariable(Variable) == "nightly";

    /// <summary>How many cases a simulation draws. Its limits are worked out from the number, so that more of them are sharper.</summary>
    public static int Cases(int usual, int nightly) => IsNightly ? nightly : usual;
}

/// <summary>Simulates, kills, or takes seconds for another reason: not part of a quick run.</summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Method)]
internal sealed class LongAttribute : Attribute, ITraitAttribute
{
    public IReadOnlyCollection<KeyValuePair<string, string>> GetTraits() => [new("Time", "long")];
}

/// <summary>Takes minutes, or says something only with very many cases: part of a nightly run alone.</summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Method)]
internal sealed class NightlyAttribute : Attribute, ITraitAttribute
{
    public IReadOnlyCollection<KeyValuePair<string, string>> GetTraits() => [new("Time", "nightly")];
}
