using System.Diagnostics;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Copies;
using Shimwright.Testing;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Killed;

/// <summary>A copy that is made while another program saves without end opens, is sound, and has everything that was acknowledged before it was begun.</summary>
public class CopiedWhileSavingTests
{
    private const int MostCopies = 6;
    private static readonly int Saves = Effort.Cases(200, 1_000);

    [Theory]
    [Long]
    [OnEachDatabase]
    public async Task BackUpAsync_DuringSaves_IsWholeAndHasWhatWasAcknowledgedBefore(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind), other = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        Guid job = await database.Bench.StartJobAsync();
        string folder = Directory.CreateTempSubdirectory("shimwright-copied-").FullName;
        using Process writer = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, ["writer", database.Address, job.ToString(), "phone"]) { RedirectStandardOutput = true })!;
        try
        {
            List<Guid> acknowledged = [];
            List<(string File, int Before)> copies = [];
            Task<SoundReport>? copying = null;
            while (acknowledged.Count < Saves && await writer.StandardOutput.ReadLineAsync(Cancel) is { } line)
            {
                acknowledged.Add(Guid.Parse(line));
                if (copying is not { IsCompleted: false } && copies.Count < MostCopies)
                {
                    Assert.True(copying is null || (await copying).IsSound);
                    string copy = Path.Combine(folder, $"copy-{copies.Count}");
                    copies.Add((copy, acknowledged.Count));
                    copying = database.Another().BackUpAsync(copy, replaces: false, cancel: Cancel);
                }
            }

            Assert.True((await copying!).IsSound);
            writer.Kill();
            Assert.True(copies.Count > 1, $"Only {copies.Count} copies were made.");
            foreach ((string file, int before) in copies)
            {
                await other.Another().RestoreAsync(file, cancel: Cancel);
                JobSheet sheet = (await other.Another().FindJobAsync(job)).Sheet;
                Assert.Equal(Enumerable.Range(1, sheet.Last), sheet.Entries.Select(e => e.Number));
                ILookup<Guid, JobEntry> kept = sheet.Entries.ToLookup(e => e.Action);
                Assert.All(kept, action => Assert.Equal(2, action.Count()));
                Assert.All(acknowledged.Take(before), action => Assert.True(kept.Contains(action), $"{file}: {action} was acknowledged before it was begun."));
                await other.CloseAsync();
            }
        }
        finally
        {
            if (!writer.HasExited)
            {
                writer.Kill();
            }

            Directory.Delete(folder, recursive: true);
        }
    }
}
