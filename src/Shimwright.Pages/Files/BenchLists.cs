namespace Shimwright.Pages.Files;

/// <summary>Every list of the bench that can be taken along as a file of lines and columns. The guide's tables say the same.</summary>
public static class BenchLists
{
    /// <summary>How many rows a file has at most.</summary>
    public const int MostRows = 10_000;

    /// <summary>All of them.</summary>
    public static IReadOnlyList<BenchList> All { get; } =
    [
        EngineLists.Engines,
        EngineLists.Due,
        EngineLists.Wear,
        JobLists.Jobs,
        JobLists.Readings,
        ShimLists.Drawer,
        ShimLists.Ledger,
        ShimLists.Orders,
        ShimLists.Marks,
        PastLists.Scorecard,
        PastLists.Year,
        PastLists.Trials,
    ];
}
