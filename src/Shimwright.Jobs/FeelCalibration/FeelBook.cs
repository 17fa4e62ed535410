using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;
using static System.FormattableString;

namespace Shimwright.Jobs.FeelCalibration;

/// <summary>Trials of one entry that count.</summary>
/// <param name="Number">The entry's number in the book, from 1.</param>
/// <param name="Trials">The trials.</param>
public sealed record BookedTrials(int Number, IReadOnlyList<TrialMade> Trials);

/// <summary>A person's book of trials, as its entries have it.</summary>
public sealed class FeelBook
{
    /// <summary>The most trials that one book takes.</summary>
    public const int MostTrials = 1000;

    private readonly List<FeelEntry> _entries;
    private readonly HashSet<int> _back = [];

    /// <summary>Reads a book from its entries.</summary>
    /// <param name="entries">The entries in their order; the first has number 1.</param>
    public FeelBook(IEnumerable<FeelEntry> entries)
    {
        _entries = [.. entries];
        foreach (int number in _entries.Index().Reverse().Where(e => e.Item is FeelTakenBack && !_back.Contains(e.Index + 1)).Select(e => ((FeelTakenBack)e.Item).Number))
        {
            _back.Add(number);
        }
    }

    /// <summary>The number of the last entry.</summary>
    public int Last => _entries.Count;

    /// <summary>The person's name.</summary>
    public string Name => _entries.OfType<FeelNamed>().LastOrDefault()?.Name ?? "";

    /// <summary>The trials that count, by entry, oldest first.</summary>
    public IReadOnlyList<BookedTrials> Booked =>
        [.. _entries.Index().Where(e => e.Item is FeelTried && !_back.Contains(e.Index + 1)).Select(e => new BookedTrials(e.Index + 1, ((FeelTried)e.Item).Trials))];

    /// <summary>All trials that count, oldest first.</summary>
    public IReadOnlyList<FeelTrial> Trials => [.. Booked.SelectMany(b => b.Trials).Select(t => t.ToTrial())];

    /// <summary>The feel that was last taken from this book for the bench, or null.</summary>
    public FeelSettings? Used => _entries.OfType<FeelUsed>().LastOrDefault()?.Feel;

    /// <summary>What was taken back last, where nothing was written since; null where there is nothing to put back.</summary>
    public (int Number, FeelTried Trials)? TakenBack =>
        _entries.Count > 0 && _entries[^1] is FeelTakenBack back && _entries[back.Number - 1] is FeelTried tried ? (Last, tried) : null;

    /// <summary>Fits the book's trials.</summary>
    /// <param name="settings">The bench's settings, whose share of slips and doubt of a blade are taken as known, and whose blades take turns.</param>
    /// <returns>The fit, or why there is none.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="settings"/> is null.</exception>
    public FeelCalibrationResult Fit(BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return FeelCalibrator.Fit(Trials, new FeelProfile(slip: settings.Feel.Slip, blade: settings.Blade), settings.Blades);
    }

    /// <summary>Says what is wrong with an entry that would be written next.</summary>
    /// <param name="entry">The entry.</param>
    /// <returns>All problems.</returns>
    /// <exception cref="ArgumentException">There is no such kind of entry.</exception>
    public IReadOnlyList<JobProblem> Problems(FeelEntry entry) => entry switch
    {
        FeelNamed named => NameRule.Allows(named.Name) ? [] : [new("name", $"found \"{JsonText.Shortened(named.Name)}\"", NameRule.Words)],
        FeelTried tried => OfTrials(tried.Trials),
        FeelTakenBack back when IsThere(back.Number) => [],
        FeelTakenBack => [new("take back", "it was undone already", "check the trials shown now")],
        FeelUsed used => new BenchSettings { Feel = used.Feel }.Problems(),
        _ => throw new ArgumentException("No such entry.", nameof(entry)),
    };

    private IReadOnlyList<JobProblem> OfTrials(IReadOnlyList<TrialMade> trials)
    {
        int before = Booked.Sum(b => b.Trials.Count);
        return trials.Count == 0 ? [new("trials", "found none", "enter a line for each trial")]
            : before + trials.Count > MostTrials
                ? [new("trials", Invariant($"found {trials.Count} more than the {before} that are here"), Invariant($"allowed are {MostTrials} in one book"))]
                : [.. trials.SelectMany(t => t.Problems())];
    }

    private bool IsThere(int number) =>
        number >= 1 && number <= Last && _entries[number - 1] is FeelTried or FeelTakenBack && !_back.Contains(number);
}
