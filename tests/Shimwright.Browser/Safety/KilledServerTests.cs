using System.Globalization;
using System.Text.Json;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Setups;
using Shimwright.Storage;
using Shimwright.Testing;
using Shimwright.Testing.Served;
using Shimwright.Testing.Staged;

namespace Shimwright.Browser.Safety;

/// <summary>
/// The server is killed (SIGKILL) in the middle of 200 saves of four devices on one job, and started again on the same
/// database: what was acknowledged is there, once, and a device that sends its last action again adds nothing.
/// </summary>
public class KilledServerTests
{
    private const int Saves = 200;
    private static readonly string[] Valves = ["I1", "I2", "E1", "E2"];

    /// <summary>Whether the database is a server, and when the bench is killed; at night oftener.</summary>
    public static TheoryData<bool, int> Kills { get; } = Effort.IsNightly
        ? new() { { false, 1 }, { false, 2 }, { false, 3 }, { true, 4 }, { true, 5 } }
        : new() { { false, 1 }, { true, 4 } };

    [Theory]
    [MemberData(nameof(Kills))]
    public async Task Server_KilledAmongSaves_KeepsWhatItAcknowledgedOnce(bool onServer, int seed)
    {
        await using DatabaseForTest database = await DatabaseForTest.MakeAsync(onServer);
        string page = $"/jobs/{await StartJobAsync(database.Address)}/measure";
        FormWriter[] writers = [.. Valves.Select((v, i) => new FormWriter(v, SavesOf(i)))];
        int killAfter = new Random(seed).Next(Saves / 4, 3 * Saves / 4);

        await using (ServedBench first = await ServedBench.StartAsync(database.Address, database.Folder))
        {
            await Task.WhenAll(writers.Select(w => w.OpenAsync(first.Address, page)));
            await WriteUntilKilledAsync(first, page, writers, killAfter);
        }

        Assert.Contains(writers, w => !w.IsDone);
        await using ServedBench second = await ServedBench.StartAsync(database.Address, database.Folder);
        string[] kept = await ValuesAsync(second.Address, page);
        string[] acknowledged = [.. writers.SelectMany(w => w.Acknowledged).Select(s => s.Value)];
        Assert.InRange(acknowledged.Length, killAfter, Saves - 1);
        Assert.Equal(kept.Distinct(), kept);
        Assert.Empty(acknowledged.Except(kept));

        await Task.WhenAll(writers.Select(w => w.RepeatAsync(second.Address, page)));
        await Task.WhenAll(writers.Select(w => w.WriteAsync(second.Address, page, () => { })));
        string[] all = [.. writers.SelectMany((_, i) => SavesOf(i)).Select(s => s.Value).Order(StringComparer.Ordinal)];
        Assert.Equal(all, (await ValuesAsync(second.Address, page)).Order(StringComparer.Ordinal));
    }

    private static async Task WriteUntilKilledAsync(ServedBench bench, string page, FormWriter[] writers, int killAfter)
    {
        int acknowledged = 0;
        var enough = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        Task writing = Task.WhenAll(writers.Select(w => w.WriteAsync(bench.Address, page, () =>
        {
            if (Interlocked.Increment(ref acknowledged) == killAfter)
            {
                enough.SetResult();
            }
        })));
        await Task.WhenAny(enough.Task, writing);
        await bench.KillAsync();
        await writing;
    }

    /// <summary>Values that no other writer sends, all within what a reading may be.</summary>
    private static IEnumerable<Save> SavesOf(int writer) => Enumerable.Range(0, Saves / Valves.Length).Select(i => new Save(
        (0.1 + (((writer * Saves / Valves.Length) + i) / 1000.0)).ToString("0.000", CultureInfo.InvariantCulture),
        new Guid(0x5a, (short)writer, (short)i, 1, 2, 3, 4, 5, 6, 7, 8)));

    private static async Task<Guid> StartJobAsync(string address)
    {
        var database = BenchDatabase.At(address, TimeProvider.System);
        await database.PrepareAsync();
        ParsedSetup file = JobSetup.FromFile(await File.ReadAllBytesAsync(Repository.Demo("01-flood-pump.json")));
        var staged = new StagedBench(database);
        Guid job = await staged.AddJobAsync(await staged.AddEngineAsync(file), file, JobStage.Measure);
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        return job;
    }

    /// <summary>The measured values in the job's file as the server gives it.</summary>
    private static async Task<string[]> ValuesAsync(Uri bench, string page)
    {
        using var client = new HttpClient { BaseAddress = bench };
        using var file = JsonDocument.Parse(await client.GetByteArrayAsync(new Uri(page.Replace("/measure", "/file", StringComparison.Ordinal), UriKind.Relative)));
        return [.. file.RootElement.GetProperty("check").GetProperty("readings").EnumerateArray()
            .Where(r => r.TryGetProperty("value", out _)).Select(r => r.GetProperty("value").GetDouble().ToString("0.000", CultureInfo.InvariantCulture))];
    }
}
