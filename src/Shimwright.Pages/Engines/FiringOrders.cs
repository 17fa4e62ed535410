namespace Shimwright.Pages.Engines;

/// <summary>
/// Firing orders that are usual for a layout: common practice, no source. Nothing is suggested where several orders or
/// numberings are usual, as for threes and fours in line and for most engines with two banks; nor for twins, whose crank
/// decides when the second cylinder fires.
/// </summary>
internal static class FiringOrders
{
    /// <summary>The usual order, or null.</summary>
    /// <param name="cylinders">How many cylinders.</param>
    /// <param name="twoBanks">Whether they stand in two banks.</param>
    public static IReadOnlyList<int>? Usual(int cylinders, bool twoBanks) => (cylinders, twoBanks) switch
    {
        (1, false) => [1],
        (5, false) => [1, 2, 4, 5, 3],
        (6, false) => [1, 5, 3, 6, 2, 4],
        _ => null,
    };

    public static string Text(IEnumerable<int> order) => string.Join("-", order);

    /// <summary>Numbers with anything between them that a person may put there: "1-3-4-2", "1 3 4 2", "1, 3, 4, 2".</summary>
    /// <param name="text">What was typed.</param>
    /// <returns>The numbers, or null where there is something else.</returns>
    public static IReadOnlyList<int>? Read(string text)
    {
        string[] parts = text.Split(['-', '\u2013', ' ', ',', ';', '/'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        int[] numbers = [.. parts.Select(p => int.TryParse(p, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int n) ? n : -1)];
        return numbers.Length == 0 || numbers.Contains(-1) ? null : numbers;
    }
}
