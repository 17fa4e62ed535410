using System.Diagnostics;
using System.Globalization;
using Shimwright.Testing.Served;

namespace Shimwright.Storm;

/// <summary>Kills the served program in the middle of saves, again and again, and looks after every start whether all that was acknowledged is there, once.</summary>
internal sealed class Kills(string folder, string database, Random random)
{
    private const int Clients = 3, JobsAtATime = 4, KillsPerJob = 25;

    private readonly List<Guid> _jobs = [];
    private readonly byte[] _file = File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "01-flood-pump.json"));

    public Ledger Ledger { get; } = new();

    /// <summary>Kills after which everything that had not been synced was gone.</summary>
    public int Cut { get; private set; }

    /// <summary>Runs.</summary>
    /// <param name="kills">How many kills.</param>
    /// <param name="cutsToo">Whether every third is a power cut, where this machine can play one.</param>
    public async Task RunAsync(int kills, bool cutsToo)
    {
        string? shim = cutsToo ? Shim() : null;
        Dictionary<string, string> variables = shim is null ? [] : new() { ["LD_PRELOAD"] = shim, ["SYNCED_FOLDER"] = folder };
        Directory.CreateDirectory(Path.Combine(folder, ".synced"));
        for (int kill = 0; kill <= kills; kill++)
        {
            await using ServedBench bench = await ServedBench.StartAsync(database, folder, variables);
            using Client client = new(bench.Address, "storm", Ledger);
            await LookAsync(client, kill == kills);
            if (kill == kills)
            {
                return;
            }

            if (kill % KillsPerJob == 0)
            {
                _jobs.Clear();
                for (int n = 0; n < JobsAtATime; n++)
                {
                    _jobs.Add(await client.StartAsync(_file));
                }
            }

            Client[] clients = [.. Enumerable.Range(0, Clients).Select(n => new Client(bench.Address, string.Create(CultureInfo.InvariantCulture, $"device {n}"), Ledger))];
            Task[] saves = [.. clients.Select(c => c.SaveAsync([.. _jobs], new Random(random.Next()), default))];
            await Task.Delay(random.Next(20, 400));
            await bench.KillAsync();
            await Task.WhenAll(saves);
            Array.ForEach(clients, c => c.Dispose());
            if (shim is not null && kill % 3 == 2)
            {
                CutPower();
            }

            if (kill % 50 == 49)
            {
                Console.Error.WriteLine($"{kill + 1} kills, {Ledger.Acknowledged.Count} acknowledged, {Ledger.Lost} lost, {Ledger.Doubled} doubled, {Ledger.Halved} half there");
            }
        }
    }

    /// <summary>After a start: what was called kept is there; then some of what nobody heard of is sent again, under the same action.</summary>
    private async Task LookAsync(Client client, bool isLast)
    {
        if (_jobs.Count == 0)
        {
            return;
        }

        Ledger.Compare(await client.KeptAsync(_jobs), _jobs.ToHashSet());
        List<Sent> unheard = [];
        while (Ledger.Unheard.TryDequeue(out Sent? sent))
        {
            unheard.Add(sent);
        }

        foreach (Sent sent in unheard.Where(s => _jobs.Contains(s.Job) && (isLast || random.Next(2) == 0)))
        {
            await client.SaveAsync(sent);
        }

        if (isLast)
        {
            Ledger.Compare(await client.KeptAsync(_jobs), _jobs.ToHashSet());
        }
    }

    /// <summary>What the program had written and not synced is gone.</summary>
    private void CutPower()
    {
        Cut++;
        foreach (string name in new[] { "bench.db", "bench.db-wal", "bench.db-shm", "bench.db-journal" })
        {
            string file = Path.Combine(folder, name), synced = Path.Combine(folder, ".synced", name);
            File.Delete(file);
            if (File.Exists(synced))
            {
                File.Copy(synced, file);
            }
        }
    }

    private string? Shim()
    {
        string made = Path.Combine(folder, "synced.so");
        try
        {
            using Process compiler = Process.Start(new ProcessStartInfo("cc", ["-shared", "-fPIC", "-O2", "-o", made, Path.Combine(AppContext.BaseDirectory, "synced.c"), "-ldl", "-lpthread"]))!;
            compiler.WaitForExit();
            return compiler.ExitCode == 0 ? made : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Console.Error.WriteLine("No C compiler (cc) is here: kills are kills only, without power cuts.");
            return null;
        }
    }
}
