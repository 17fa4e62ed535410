using System.Globalization;
using Microsoft.Data.Sqlite;
using Shimwright.Storage;
using Shimwright.Testing.Shed;

namespace Shimwright.Year;

internal static class Program
{
    /// <summary>Optional arguments: jobs (2000), engines (200), seed (4711). Called as "hand FILE" it is the program that is killed.</summary>
    private static Task<int> Main(string[] args) => args is ["hand", var file]
        ? Hand.RunAsync(file)
        : RunAsync(Number(args, 0, 2_000), Number(args, 1, 200), Number(args, 2, 4_711));

    private static async Task<int> RunAsync(int jobs, int engines, int seed)
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-year-").FullName;
        try
        {
            string file = Path.Combine(folder, "bench.db");
            ShedClock clock = new();
            BenchDatabase database = BenchDatabase.At(file, clock);
            await database.PrepareAsync();
            DrawerAudit left = new(database);
            await using KilledBench bench = KilledBench.Start(file, clock, seed, () => left.LookAsync(afresh: true));
            DrawerAudit audit = new(database);
            HireShed shed = new(bench, audit, seed, engines, ShedYear.Stands);
            ShedYear year = new(shed, bench, clock);
            await year.RunAsync(jobs);
            await audit.LookAsync(afresh: true);
            YearTables.Print(Console.Out, year, shed, bench, (audit, left));
            return 0;
        }
        finally
        {
            SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int Number(string[] args, int at, int usual) =>
        args.Length > at ? int.Parse(args[at], CultureInfo.InvariantCulture) : usual;
}
