using System.Globalization;
using Shimwright.Domain.Numerics;
using Shimwright.Jobs.Due;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Due;

/// <summary>The year of a shop, in days and words of the bench.</summary>
internal static class YearView
{
    /// <summary>The last twelve months where the bench stands.</summary>
    public static ShopYear Of(IReadOnlyList<ScoredRecord> records, LocalTimes local) => ShopYear.Of(
        records, DateOnly.FromDateTime(local.Today), at => DateOnly.FromDateTime(local.Date(at)));

    /// <summary>A month in a word.</summary>
    public static string Month(DateOnly first) => first.ToString("MMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>The same where the year is plain: of twelve months no two have one name.</summary>
    public static string ShortMonth(DateOnly first) => first.ToString("MMM", CultureInfo.InvariantCulture);

    /// <summary>The ends of a share's interval.</summary>
    public static string Range(BinomialShare share) => string.Create(CultureInfo.InvariantCulture, $"{share.Low * 100:0} to {share.High * 100:0} %");

    /// <summary>How many of how many.</summary>
    public static string CountOf(BinomialShare? share) => share is { } s ? string.Create(CultureInfo.InvariantCulture, $"{s.Count} of {s.Trials}") : "-";

    /// <summary>What the shims that were fitted came from.</summary>
    public static string Sources(ShimsUsed shims) => string.Join(", ", new[]
    {
        (shims.FromDrawer, "from the drawer"), (shims.Bought, "bought"), (shims.Moved, "moved from another valve"), (shims.Other, "not as planned or not recorded"),
    }.Where(s => s.Item1 > 0).Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Item1} {s.Item2}")));

    /// <summary>What the plans' chances were worth.</summary>
    public static string Verdict(double promised, BinomialShare kept) =>
        promised > kept.High ? "The plans promise too much."
        : promised < kept.Low ? "The work is better than the plans say."
        : "The plans' chances agree with the work.";
}
