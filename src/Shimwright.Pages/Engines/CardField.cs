using Shimwright.Bench.Engines;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Engines;

/// <summary>A field of the card's form, with all that is known of it.</summary>
/// <param name="Name">Its name: a property of the form.</param>
/// <param name="Label">What it is called wherever it is shown or something is wrong with it.</param>
/// <param name="Value">How it is read, and how it is filled in.</param>
internal sealed record CardField(string Name, string Label, CardValue Value)
{
    /// <summary>Says below it what belongs there, in the bench's unit; null where the label is enough.</summary>
    public Func<LengthStyle, string>? Hint { get; init; }

    /// <summary>The keyboard that a phone shows.</summary>
    public string Mode { get; init; } = "text";

    /// <summary>How many lines it has.</summary>
    public int Lines { get; init; } = 1;

    /// <summary>Further paths of the card whose problems are shown at it, besides that of its value.</summary>
    public IReadOnlyList<string> AlsoAt { get; init; } = [];

    /// <summary>How the engine's page says it; null where it does not, or in words of its own.</summary>
    public CardFact? Fact { get; init; }
}

/// <summary>A line of the engine's page.</summary>
/// <param name="Title">What it is about.</param>
/// <param name="Words">What it says; null where there is nothing to be said.</param>
internal sealed record CardFact(string Title, Func<StoredEngine, LengthStyle, string?> Words);
