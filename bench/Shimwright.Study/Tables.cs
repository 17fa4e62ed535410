using System.Globalization;

namespace Shimwright.Study;

/// <summary>The outcome as tables that can be pasted into a document; ± is one standard error.</summary>
internal static class Tables
{
    private const int Bins = 5;

    /// <summary>The row that the others' minutes are compared with, engine by engine.</summary>
    private const string Usual = "arithmetic, marks";

    public static void Print(TextWriter to, string population, IReadOnlyList<(string Name, Outcome[] Outcomes)> rows)
    {
        to.WriteLine($"### {population}");
        PrintJobs(to, rows);
        (string, Outcome[])[] felt = [.. rows.Select(r => (r.Name, r.Outcomes.Where(o => o.IsFelt).ToArray()))];
        to.WriteLine();
        to.WriteLine($"### {population}, the {felt[0].Item2.Length} engines whose every clearance the blades can feel (0.025 to 0.267)");
        PrintJobs(to, felt);
        to.WriteLine();
        to.WriteLine($"### {population}, promise and result");
        PrintPromises(to, rows);
    }

    private static void PrintJobs(TextWriter to, IReadOnlyList<(string Name, Outcome[] Outcomes)> rows)
    {
        Outcome[] usual = rows.Single(r => r.Name == Usual).Outcomes;
        to.WriteLine();
        to.WriteLine("| strategy | right at first re-check | passed and right | passed but wrong | rounds until right | first round, min | all rounds, min | all rounds against arithmetic on marks, min | dearer than it | swaps | bought | given back wrong, times | unfinished after 6 |");
        to.WriteLine("|---|---|---|---|---|---|---|---|---|---|---|---|---|");
        foreach ((string name, Outcome[] jobs) in rows)
        {
            string[] cells =
            [
                name,
                Share(jobs, o => o.RightFirst),
                Share(jobs, o => o.PassedFirst && o.RightFirst),
                Share(jobs, o => o.PassedFirst && !o.RightFirst),
                Mean(jobs.Select(o => (double)o.RoundsUntilRight), "0.00"),
                Mean(jobs.Select(o => o.FirstMinutes), "0.0"),
                Mean(jobs.Select(o => o.Minutes), "0.0"),
                Mean(jobs.Zip(usual, (a, b) => a.Minutes - b.Minutes), "+0.0;-0.0;0.0"),
                Text($"{jobs.Zip(usual).Count(p => p.First.Minutes > p.Second.Minutes + 1e-9) / (double)jobs.Length:0.00}"),
                Text($"{jobs.Average(o => o.Swapped):0.00}"),
                Text($"{jobs.Average(o => o.Bought):0.000}"),
                Text($"{jobs.Average(o => o.Returns):0.00}"),
                Text($"{jobs.Count(o => !o.IsFinished) / (double)jobs.Length:0.000}"),
            ];
            to.WriteLine($"| {string.Join(" | ", cells)} |");
        }
    }

    private static void PrintPromises(TextWriter to, IReadOnlyList<(string Name, Outcome[] Outcomes)> rows)
    {
        to.WriteLine();
        to.WriteLine("| strategy | jobs | promised on average | achieved | in fifths by promise: promised, achieved |");
        to.WriteLine("|---|---|---|---|---|");
        foreach ((string name, Outcome[] jobs) in rows.Where(r => r.Outcomes.Any(o => o.Promised is not null)))
        {
            Outcome[] promised = [.. jobs.Where(o => o.Promised is not null).OrderBy(o => o.Promised)];
            IEnumerable<string> bins = promised.Chunk((promised.Length + Bins - 1) / Bins).Select(bin => Text(
                $"{bin.Average(o => o.Promised!.Value):0.00} {bin.Average(o => o.RightFirst ? 1 : 0):0.00}"));
            to.WriteLine(Text(
                $"| {name} | {promised.Length} | {promised.Average(o => o.Promised!.Value):0.000} | {Share(promised, o => o.RightFirst)} | {string.Join("; ", bins)} |"));
        }
    }

    private static string Share(Outcome[] jobs, Func<Outcome, bool> holds)
    {
        double share = jobs.Count(holds) / (double)jobs.Length;
        return Text($"{share:0.000} ± {Math.Sqrt(share * (1 - share) / jobs.Length):0.000}");
    }

    private static string Mean(IEnumerable<double> values, string format)
    {
        double[] all = [.. values];
        double mean = all.Average();
        double variance = all.Sum(x => (x - mean) * (x - mean)) / Math.Max(1, all.Length - 1);
        string error = Math.Sqrt(variance / all.Length).ToString(format.Split(';')[0].TrimStart('+'), CultureInfo.InvariantCulture);
        return $"{mean.ToString(format, CultureInfo.InvariantCulture)} ± {error}";
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
