using System.Globalization;

namespace Shimwright.Load;

/// <summary>Quantiles of the answers as a table, each beside those of the bare endpoint.</summary>
internal static class LatencyTable
{
    private static readonly double[] Levels = [0.50, 0.95, 0.99];

    /// <param name="to">Where it is written.</param>
    /// <param name="bare">Answers of the bare endpoint.</param>
    /// <param name="pages">Answers of the pages.</param>
    /// <param name="work">The server's processor time for one request of each, ms; 0 where it was not measured.</param>
    public static void Print(TextWriter to, IReadOnlyList<Answered> bare, IReadOnlyList<Answered> pages, IReadOnlyDictionary<string, double> work)
    {
        double[] beside = Quantiles(bare);
        to.WriteLine("| page | requests | failed | p50, ms | p95, ms | p99, ms | max, ms | p50 to bare | p99 to bare | processor, ms |");
        to.WriteLine("|---|---|---|---|---|---|---|---|---|---|");
        foreach (IGrouping<string, Answered> page in bare.Concat(pages).GroupBy(a => a.Page))
        {
            double[] q = Quantiles(page);
            int failed = page.Count(a => a.Status != 200);
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {page.Key} | {page.Count()} | {failed} | {q[0]:0.0} | {q[1]:0.0} | {q[2]:0.0} | {q[3]:0.0} | {q[0] / beside[0]:0.0} | {q[2] / beside[2]:0.0} | {work.GetValueOrDefault(page.Key):0.0} |"));
        }
    }

    /// <summary>Each level is the smallest answer that so many are not above; the last is the greatest.</summary>
    private static double[] Quantiles(IEnumerable<Answered> answers)
    {
        double[] sorted = [.. answers.Select(a => a.Milliseconds).Order()];
        return [.. Levels.Select(l => sorted[(int)Math.Ceiling(l * sorted.Length) - 1]), sorted[^1]];
    }
}
