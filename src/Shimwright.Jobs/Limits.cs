namespace Shimwright.Jobs;

/// <summary>How much of anything is taken, and where reading stops: for files, the API and pages alike. The guide lists them.</summary>
public static class Limits
{
    /// <summary>The longest number that is written as text, with its unit, characters.</summary>
    public const int LongestNumber = 64;

    /// <summary>The longest line of shims at hand or sizes to buy in a field, characters.</summary>
    public const int LongestStockLine = 200;

    /// <summary>What is said of a number that is longer.</summary>
    internal static string NumberRule { get; } = FormattableString.Invariant($"a number has at most {LongestNumber} characters, its unit included");

    /// <summary>What is said of a line that is longer.</summary>
    internal static string StockLineRule { get; } = FormattableString.Invariant($"a line has at most {LongestStockLine} characters");
}
