using System.Diagnostics;
using Shimwright.Jobs.Sheets;
using Shimwright.Testing;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Killed;

/// <summary>
/// A program that saves without end is killed (SIGKILL) in the middle of it, again and again, until enough saves were
/// acknowledged: each of them is there, whole and once.
/// </summary>
public class KilledTests
{
    private static readonly int Saves = Effort.Cases(80, 1_000);
    private static readonly int Kills = Effort.Cases(2, 25);

    [Theory]
    [Long]
    [OnEachDatabase]
    public async Task AddAsync_ProgramKilledWhileItSaves_HasKeptEverythingThatItAcknowledged(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        List<Guid> acknowledged = [];
        for (int kill = 0; kill < Kills; kill++)
        {
            acknowledged.AddRange(await RunAndKillAsync(database.Address, job, $"device {kill}", (Saves / Kills) + kill));

            // The next start finds the database as the killed one left it.
            BenchDatabase next = database.Another();
            Assert.Null(await next.PrepareAsync(Cancel));
            AssertWhole((await next.FindJobAsync(job)).Sheet, acknowledged);
        }

        Assert.True(acknowledged.Count >= Saves, $"Only {acknowledged.Count} were acknowledged.");
    }

    /// <summary>Every acknowledged action is there with both its facts and once; an unacknowledged one is there whole or not at all.</summary>
    private static void AssertWhole(JobSheet sheet, List<Guid> acknowledged)
    {
        Assert.Equal(Enumerable.Range(1, sheet.Last), sheet.Entries.Select(e => e.Number));
        Dictionary<Guid, int> kept = sheet.Entries.GroupBy(e => e.Action).ToDictionary(g => g.Key, g => g.Count());
        Assert.All(kept.Values, facts => Assert.Equal(2, facts));
        Assert.Equal(acknowledged.Count, acknowledged.Distinct().Count());
        Assert.All(acknowledged, a => Assert.True(kept.ContainsKey(a), $"{a} was acknowledged and is gone."));

        // One save a kill may have reached the disk without its acknowledgement reaching us.
        Assert.InRange(kept.Count - acknowledged.Count, 0, Kills);
    }

    private static async Task<IReadOnlyList<Guid>> RunAndKillAsync(string address, Guid job, string device, int after)
    {
        using Process process = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, ["writer", address, job.ToString(), device])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        List<Guid> acknowledged = [];
        while (acknowledged.Count < after && await process.StandardOutput.ReadLineAsync(Cancel) is { } line)
        {
            acknowledged.Add(Guid.Parse(line));
        }

        process.Kill();
        while (await process.StandardOutput.ReadLineAsync(Cancel) is { } line)
        {
            if (Guid.TryParse(line, out Guid more))
            {
                acknowledged.Add(more);
            }
        }

        string errors = await process.StandardError.ReadToEndAsync(Cancel);
        await process.WaitForExitAsync(Cancel);
        Assert.True(acknowledged.Count >= after, errors);
        return acknowledged;
    }
}
