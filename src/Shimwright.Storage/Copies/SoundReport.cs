using Shimwright.Bench.Contents;

namespace Shimwright.Storage.Copies;

/// <summary>What a check of a bench has found.</summary>
/// <param name="Engines">Engines in it.</param>
/// <param name="Jobs">Jobs in it.</param>
/// <param name="Facts">Facts of its jobs.</param>
/// <param name="Entries">Entries of the drawer's ledger.</param>
/// <param name="WithoutSum">Rows without a checksum, which an older program has written.</param>
/// <param name="Damage">What is damaged, each in words; none where the bench is sound.</param>
public sealed record SoundReport(int Engines, int Jobs, int Facts, int Entries, int WithoutSum, IReadOnlyList<string> Damage)
{
    /// <summary>Whether nothing is damaged.</summary>
    public bool IsSound => Damage.Count == 0;

    /// <summary>The report on a bench that was read row by row as it was written or taken in.</summary>
    /// <param name="contents">The bench.</param>
    /// <returns>Its counts; nothing is damaged.</returns>
    public static SoundReport Of(BenchContents contents)
    {
        ArgumentNullException.ThrowIfNull(contents);
        return new(contents.Engines.Count, contents.Jobs.Count, contents.Facts.Count, contents.Ledger.Count, 0, []);
    }

    /// <summary>The damage in one text: the first few, and how many more.</summary>
    internal string InWords(int most) => string.Join("; ", Damage.Take(most))
        + (Damage.Count > most ? FormattableString.Invariant($"; and {Damage.Count - most} more") : "");
}
