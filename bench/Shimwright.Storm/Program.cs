using System.Diagnostics;
using System.Globalization;
using Shimwright.Storage;

namespace Shimwright.Storm;

/// <summary>
/// Storm [KILLS [SEED]]: kills the served program in the middle of saves over HTTP, on a SQLite file, every third time with everything gone that was
/// not synced; then a full, a read-only and a vanished disk. With SHIMWRIGHT_STORM_POSTGRES (a connection text) the kills are on that server.
/// With SHIMWRIGHT_STORM_RESTART too (a command that stops that database and starts it again) two servers share it: every other time one of them is
/// killed, every other time the database.
/// </summary>
internal static class Program
{
    public static async Task<int> Main(string[] args)
    {
        int kills = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 1000;
        Random random = new(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 20_261_129);
        string? server = Environment.GetEnvironmentVariable("SHIMWRIGHT_STORM_POSTGRES");
        string folder = Directory.CreateTempSubdirectory("shimwright-storm-").FullName;
        try
        {
            string database = server ?? Path.Combine(folder, "bench.db");
            Stopwatch watch = Stopwatch.StartNew();
            if (server is not null && Environment.GetEnvironmentVariable("SHIMWRIGHT_STORM_RESTART") is { Length: > 0 } restart)
            {
                Shop shop = new(folder, database, restart, random);
                await shop.RunAsync(kills);
                Ledger two = shop.Ledger;
                Console.WriteLine($"{shop.Kills} kills of one of two servers and {shop.Restarts} of PostgreSQL, in {watch.Elapsed.TotalMinutes:0} min: {two.Acknowledged.Count} saves acknowledged, "
                    + $"{two.Lost} lost, {two.Doubled} doubled, {two.Halved} half there; {two.Found} kept whose answer was lost; back at most {shop.LongestBack.TotalSeconds:0.0} s after the database");
                return two.Lost + two.Doubled + two.Halved == 0 ? 0 : 1;
            }

            Kills storm = new(folder, database, random);
            await storm.RunAsync(kills, cutsToo: server is null);
            Ledger ledger = storm.Ledger;
            Console.WriteLine($"{kills} kills on {(server is null ? "SQLite" : "PostgreSQL")}, {storm.Cut} of them with what was not synced gone, in {watch.Elapsed.TotalMinutes:0} min: "
                + $"{ledger.Acknowledged.Count} saves acknowledged, {ledger.Lost} lost, {ledger.Doubled} doubled, {ledger.Halved} half there; {ledger.Found} kept whose answer was lost");
            bool isSound = (await BenchDatabase.At(database, TimeProvider.System).CheckAsync()).IsSound;
            Console.WriteLine(isSound ? "The bench is sound." : "The bench is damaged.");
            if (server is null)
            {
                Disks disks = new(folder, random);
                foreach (Func<Task<string>> trouble in new Func<Task<string>>[] { disks.FullAsync, disks.ReadOnlyAsync, disks.GoneAsync })
                {
                    Console.WriteLine(await trouble());
                }
            }

            return isSound && ledger.Lost + ledger.Doubled + ledger.Halved == 0 ? 0 : 1;
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }
}
