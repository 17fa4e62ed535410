using Shimwright.Domain.Readings;
using static System.FormattableString;

namespace Shimwright.Jobs.Facts;

/// <summary>What may have moved the valves, and what loss of clearance that lets one expect.</summary>
/// <param name="Name">Its name in facts.</param>
/// <param name="Title">What a person taps.</param>
/// <param name="Assumes">What it assumes, in a sentence.</param>
/// <param name="Shared">Scale of the loss that the valves share, mm; null leaves the job's own.</param>
/// <param name="Own">Mean of the loss that each valve has on its own, mm; null leaves the job's own.</param>
public sealed record SuspectedCause(string Name, string Title, string Assumes, double? Shared, double? Own)
{
    /// <summary>Nothing is known; the engine card's or the usual expectation holds.</summary>
    public static SuspectedCause Unknown { get; } = new(
        "unknown", "Don't know", Invariant($"Assumes the usual: the valves share a loss of about {LossPrior.Ordinary.Shared} mm, and each has lost about {LossPrior.Ordinary.Own} mm more on its own. The readings outweigh it."), null, null);

    /// <summary>Ordinary wear.</summary>
    public static SuspectedCause Ordinary { get; } = new(
        "ordinary", "Ordinary wear", Invariant($"Assumes that the valves share a loss of about {LossPrior.Ordinary.Shared} mm, and that each has lost about {LossPrior.Ordinary.Own} mm more on its own."),
        LossPrior.Ordinary.Shared, LossPrior.Ordinary.Own);

    /// <summary>Dust got past the air cleaner.</summary>
    public static SuspectedCause Dust { get; } = new(
        "dust", "Dust got in", Invariant($"Assumes that the valves share a loss of about {LossPrior.Dust.Shared} mm, twice the usual, and that each has lost about {LossPrior.Dust.Own} mm more on its own. Gaps too tight to feel are then expected to be tighter."),
        LossPrior.Dust.Shared, LossPrior.Dust.Own);

    /// <summary>All of them, in the order in which they are offered.</summary>
    public static IReadOnlyList<SuspectedCause> All { get; } = [Ordinary, Dust, Unknown];

    /// <summary>The cause of a name, or null.</summary>
    /// <param name="name">The name.</param>
    /// <returns>The cause.</returns>
    public static SuspectedCause? Of(string name) => All.FirstOrDefault(c => c.Name == name);
}
