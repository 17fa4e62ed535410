namespace Shimwright.Jobs.Bounds;

/// <summary>How much of anything is taken, and where reading stops: for files, the API and pages alike. The guide lists them.</summary>
public static class Limits
{
    /// <summary>The largest job file, bytes.</summary>
    public const int LargestJobFile = 32 * 1024 * 1024;

    /// <summary>The largest file of lines and columns, bytes.</summary>
    public const int LargestTable = 4 * 1024 * 1024;

    /// <summary>The largest body of any other request, bytes.</summary>
    public const int LargestRequest = 1024 * 1024;

    /// <summary>The most lines of a file of lines and columns, its heading left out.</summary>
    public const int MostTableLines = 5000;

    /// <summary>The longest number that is written as text, with its unit, characters.</summary>
    public const int LongestNumber = 64;

    /// <summary>The longest line of shims at hand or sizes to buy in a field, characters.</summary>
    public const int LongestStockLine = 200;

    /// <summary>The most problems that are listed; where there are more, reading stops.</summary>
    public const int MostProblems = 200;

    /// <summary>The most that the files of an archive may come to when they are unpacked, bytes.</summary>
    public const long LargestArchive = 2048L * 1024 * 1024;

    /// <summary>The longest line of an archive, bytes: a job may have been started from the largest file.</summary>
    public const int LongestArchiveLine = LargestJobFile + (4 * 1024 * 1024);

    /// <summary>The most times that an archive may grow when it is unpacked; above a megabyte nothing that people write comes near it.</summary>
    public const int MostTimesPacked = 200;

    /// <summary>The most readings of a kind that count at a valve in one part of the work: the newest.</summary>
    public const int MostReadingsCounted = 40;

    /// <summary>The most depths of a valve whose working is listed: the newest.</summary>
    public const int MostDepthsListed = 10;

    /// <summary>The most past checks that count times valves, and the least past checks that count.</summary>
    private const int MostPastReadings = 4000, LeastPastChecks = 50;

    /// <summary>How many past checks of an engine count: the newest.</summary>
    /// <param name="valves">How many valves it has.</param>
    /// <returns>How many.</returns>
    public static int MostPastChecks(int valves) => Math.Max(LeastPastChecks, MostPastReadings / Math.Max(1, valves));

    /// <summary>What is said of a number that is longer.</summary>
    internal static string NumberRule { get; } = FormattableString.Invariant($"a number has at most {LongestNumber} characters, its unit included");

    /// <summary>What is said of a line that is longer.</summary>
    internal static string StockLineRule { get; } = FormattableString.Invariant($"a line has at most {LongestStockLine} characters");
}
