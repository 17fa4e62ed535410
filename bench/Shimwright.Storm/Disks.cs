using System.Diagnostics;
using System.Net;
using Shimwright.Testing.Served;

namespace Shimwright.Storm;

/// <summary>A disk that is full, read-only or gone while the bench is served: what was acknowledged is kept, and saving goes on when the disk is back.</summary>
internal sealed class Disks(string folder, Random random)
{
    private const int Most = 5_000;

    private readonly byte[] _file = File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "01-flood-pump.json"));

    /// <summary>A disk of its own that fills up while the bench saves.</summary>
    public Task<string> FullAsync() => OnOwnDiskAsync("full", async (disk, saves) =>
    {
        await saves(() => true);
        Run("mount", "-o", "remount,size=64m", disk);
    });

    /// <summary>A disk that is read-only at the start, as the system makes it after an error. Nothing is changed, and the start says why.</summary>
    public async Task<string> ReadOnlyAsync()
    {
        const string Name = "read-only";
        string disk = Directory.CreateDirectory(Path.Combine(folder, Name)).FullName, file = Path.Combine(disk, "bench.db");
        if (!Run("mount", "-t", "tmpfs", "-o", "size=16m", "tmpfs", disk))
        {
            return $"{Name}: not tried, since a disk can be made only by root";
        }

        try
        {
            Ledger ledger = new();
            Guid[] jobs;
            await using (ServedBench bench = await ServedBench.StartAsync(file, folder))
            {
                using Client client = new(bench.Address, "storm", ledger);
                jobs = [await client.StartAsync(_file)];
                await SaveAsync(client, jobs, 20, () => true);
            }

            Run("mount", "-o", "remount,ro", disk);
            string said;
            try
            {
                await using ServedBench refused = await ServedBench.StartAsync(file, folder);
                said = "it started";
            }
            catch (InvalidOperationException e)
            {
                said = e.Message.Trim().Split('\n')[^1];
            }

            Run("mount", "-o", "remount,rw", disk);
            await using ServedBench next = await ServedBench.StartAsync(file, folder);
            using Client last = new(next.Address, "storm", ledger);
            ledger.Compare(await last.KeptAsync(jobs), jobs.ToHashSet());
            return $"{Name}: \"{said}\"; then {ledger.Acknowledged.Count} acknowledged, {ledger.Lost} lost";
        }
        finally
        {
            Run("umount", disk);
        }
    }

    /// <summary>A file that is moved away and back.</summary>
    public async Task<string> GoneAsync()
    {
        string own = Directory.CreateDirectory(Path.Combine(folder, "gone")).FullName;
        return await ServedAsync(own, "gone", async (_, saves) =>
        {
            File.Move(Path.Combine(own, "bench.db"), Path.Combine(own, "elsewhere.db"));
            await saves(() => true);
            File.Move(Path.Combine(own, "elsewhere.db"), Path.Combine(own, "bench.db"));
        });
    }

    private async Task<string> OnOwnDiskAsync(string name, Func<string, Func<Func<bool>, Task>, Task> trouble, string size = "3m")
    {
        string disk = Directory.CreateDirectory(Path.Combine(folder, name)).FullName;
        if (!Run("mount", "-t", "tmpfs", "-o", $"size={size}", "tmpfs", disk))
        {
            return $"{name}: not tried, since a disk can be made only by root";
        }

        try
        {
            return await ServedAsync(disk, name, trouble);
        }
        finally
        {
            Run("umount", disk);
        }
    }

    private async Task<string> ServedAsync(string disk, string name, Func<string, Func<Func<bool>, Task>, Task> trouble)
    {
        Ledger ledger = new();
        Guid[] jobs;
        HttpStatusCode during, after;
        await using (ServedBench bench = await ServedBench.StartAsync(Path.Combine(disk, "bench.db"), folder))
        {
            using Client client = new(bench.Address, "storm", ledger);
            jobs = [await client.StartAsync(_file), await client.StartAsync(_file)];
            await SaveAsync(client, jobs, 20, () => true);
            await trouble(disk, goOn => SaveUntilRefusedAsync(client, jobs, ledger, goOn));
            during = _during;
            await SaveAsync(client, jobs, 20, () => true);
            after = await client.HealthAsync();
        }

        await using ServedBench next = await ServedBench.StartAsync(Path.Combine(disk, "bench.db"), folder);
        using Client last = new(next.Address, "storm", ledger);
        ledger.Compare(await last.KeptAsync(jobs), jobs.ToHashSet());
        return $"{name}: {ledger.Acknowledged.Count} acknowledged, {ledger.Refused} refused with 503, {ledger.Lost} lost, {ledger.Doubled} doubled, {ledger.Halved} half there; "
            + $"health {(int)during} during it and {(int)after} after it";
    }

    private HttpStatusCode _during;

    private async Task SaveUntilRefusedAsync(Client client, Guid[] jobs, Ledger ledger, Func<bool> goOn)
    {
        int before = ledger.Refused;
        await SaveAsync(client, jobs, Most, () => goOn() && ledger.Refused < before + 10);
        _during = await client.HealthAsync();
    }

    private async Task SaveAsync(Client client, Guid[] jobs, int most, Func<bool> goOn)
    {
        for (int n = 0; n < most && goOn(); n++)
        {
            await client.SaveAsync(new Sent(Guid.NewGuid(), jobs[random.Next(jobs.Length)], new string('x', 1500)));
        }
    }

    private static bool Run(string program, params string[] arguments)
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
