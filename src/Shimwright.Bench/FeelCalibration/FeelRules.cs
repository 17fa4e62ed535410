using Shimwright.Bench.Texts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.FeelCalibration;

/// <summary>What may be written into a book of trials.</summary>
public static class FeelRules
{
    /// <summary>The entry as it is kept: a name without what no store can hold.</summary>
    /// <param name="entry">The entry as it was sent.</param>
    /// <param name="device">The device.</param>
    /// <returns>The entry.</returns>
    /// <exception cref="ArgumentException">The device has no name.</exception>
    public static FeelEntry Kept(FeelEntry entry, string device)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return !PlainText.CanNameADevice(device) ? throw new ArgumentException("The device has a name.", nameof(device))
            : entry is FeelNamed named ? new FeelNamed(PlainText.Of(named.Name).Trim())
            : entry;
    }

    /// <summary>What keeps an entry out of a book; a name begins one.</summary>
    /// <param name="book">The book; one without entries where there is none yet.</param>
    /// <param name="entry">The entry as it is kept.</param>
    /// <returns>The problems.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static IReadOnlyList<JobProblem> ProblemsOf(FeelBook book, FeelEntry entry)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(entry);
        return book.Last == 0 && entry is not FeelNamed
            ? [new("person", "there is no such person", "open the page again")]
            : book.Problems(entry);
    }

    /// <summary>Books by name, whatever the case.</summary>
    /// <param name="books">The books.</param>
    /// <returns>The same in order.</returns>
    public static IReadOnlyList<StoredFeel> Sorted(IEnumerable<StoredFeel> books) =>
        [.. books.OrderBy(f => f.Book.Name, StringComparer.OrdinalIgnoreCase).ThenBy(f => f.Id)];
}
