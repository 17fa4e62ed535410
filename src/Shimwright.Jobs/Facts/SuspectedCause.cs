using Shimwright.Domain.Readings;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Written;
using static System.FormattableString;

namespace Shimwright.Jobs.Facts;

/// <summary>What may have moved the valves, and what loss of clearance that lets one expect.</summary>
/// <param name="Name">Its name in facts.</param>
/// <param name="Title">What a person taps.</param>
/// <param name="Assumes">What it assumes, in a sentence.</param>
/// <param name="Loss">What it lets expect; null leaves the job's own.</param>
public sealed record SuspectedCause(string Name, string Title, string Assumes, WrittenLoss? Loss)
{
    /// <summary>Nothing is known; the engine card's or the usual expectation holds.</summary>
    public static SuspectedCause Unknown { get; } = new(
        "unknown", "Don't know", Invariant($"Assumes the usual: the valves share a loss of about {LossPrior.Ordinary.Shared} mm, and each has lost about {LossPrior.Ordinary.Own} mm more on its own. The readings outweigh it."), null);

    /// <summary>Ordinary wear.</summary>
    public static SuspectedCause Ordinary { get; } = new(
        "ordinary", "Ordinary wear", Invariant($"Assumes that the valves share a loss of about {LossPrior.Ordinary.Shared} mm, and that each has lost about {LossPrior.Ordinary.Own} mm more on its own."),
        new(LossPrior.Ordinary.Shared, LossPrior.Ordinary.Own));

    /// <summary>Dust got past the air cleaner.</summary>
    public static SuspectedCause Dust { get; } = new(
        "dust", "Dust got in", Invariant($"Assumes that the valves share a loss of about {LossPrior.Dust.Shared} mm, twice the usual, and that each has lost about {LossPrior.Dust.Own} mm more on its own. Gaps too tight to feel are then expected to be tighter."),
        new(LossPrior.Dust.Shared, LossPrior.Dust.Own));

    /// <summary>Seats were cut, valves ground or new parts fitted on both sides.</summary>
    public static SuspectedCause HeadWork { get; } = new(
        "head-work", "Head work", "Seats cut, valves ground or new parts fitted. Assumes nothing about the gaps: each can be anywhere, and none says anything about another.",
        new(Cause: LossSection.HeadWork, Sides: ["intake", "exhaust"]));

    /// <summary>The same on the intake side.</summary>
    public static SuspectedCause IntakeWork { get; } = new(
        "head-work-intake", "Head work, intake side only", "Assumes nothing about the intake gaps, and ordinary wear at the exhaust.",
        new(Cause: LossSection.HeadWork, Sides: ["intake"]));

    /// <summary>The same on the exhaust side.</summary>
    public static SuspectedCause ExhaustWork { get; } = new(
        "head-work-exhaust", "Head work, exhaust side only", "Assumes nothing about the exhaust gaps, and ordinary wear at the intake.",
        new(Cause: LossSection.HeadWork, Sides: ["exhaust"]));

    /// <summary>All of them, in the order in which they are offered.</summary>
    public static IReadOnlyList<SuspectedCause> All { get; } = [Ordinary, Dust, HeadWork, IntakeWork, ExhaustWork, Unknown];

    /// <summary>The cause of a name, or null.</summary>
    /// <param name="name">The name.</param>
    /// <returns>The cause.</returns>
    public static SuspectedCause? Of(string name) => All.FirstOrDefault(c => c.Name == name);
}
