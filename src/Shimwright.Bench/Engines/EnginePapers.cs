using Shimwright.Bench.Texts;

namespace Shimwright.Bench.Engines;

/// <summary>What an engine's record says of it beside its name.</summary>
/// <param name="Owner">Whose it is: a name or a customer number.</param>
/// <param name="Frame">Number of its frame or plate.</param>
public sealed record EnginePapers(string Owner, string Frame)
{
    /// <summary>The longest of either, characters.</summary>
    public const int Longest = 100;

    /// <summary>Neither is known.</summary>
    public static EnginePapers Blank { get; } = new("", "");

    /// <summary>Whether they can be kept as they are.</summary>
    public bool CanBeKept => Fits(Owner) && Fits(Frame);

    /// <summary>The papers as they are kept.</summary>
    /// <param name="sent">What was sent; null where they stay as they are.</param>
    /// <param name="before">What is kept.</param>
    /// <returns>The papers.</returns>
    /// <exception cref="ArgumentException">They are too long, or of more than one line.</exception>
    public static EnginePapers Kept(EnginePapers? sent, EnginePapers before)
    {
        EnginePapers kept = sent is null ? before : new(PlainText.Of(sent.Owner.Trim()), PlainText.Of(sent.Frame.Trim()));
        return kept.CanBeKept ? kept : throw new ArgumentException($"Owner and frame number have {Longest} characters and one line each at most.", nameof(sent));
    }

    private static bool Fits(string text) => text.Length <= Longest && !text.Any(char.IsControl);
}
