using System.Diagnostics;
using System.Globalization;
using System.Net;
using Shimwright.Testing.Served;

namespace Shimwright.Storm;

/// <summary>Two servers on one PostgreSQL, while people save at both: now one server is killed, now the database is stopped and started in the middle.</summary>
internal sealed class Shop(string folder, string database, string restart, Random random)
{
    private const int ClientsEach = 2, JobsAtATime = 4, RoundsPerJob = 10;
    private static readonly TimeSpan LongestAway = TimeSpan.FromMinutes(1);

    private readonly List<Guid> _jobs = [];
    private readonly byte[] _file = File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "01-flood-pump.json"));

    public Ledger Ledger { get; } = new();

    public int Kills { get; private set; }

    public int Restarts { get; private set; }

    /// <summary>The longest that a server took to be well again after the database was back.</summary>
    public TimeSpan LongestBack { get; private set; }

    public async Task RunAsync(int rounds)
    {
        ServedBench?[] servers = new ServedBench?[2];
        try
        {
            for (int round = 0; round <= rounds; round++)
            {
                for (int n = 0; n < servers.Length; n++)
                {
                    servers[n] ??= await ServedBench.StartAsync(database, folder);
                }

                using Client looker = new(servers[round % 2]!.Address, "storm", Ledger);
                await LookAsync(looker);
                if (round == rounds)
                {
                    return;
                }

                if (round % RoundsPerJob == 0)
                {
                    _jobs.Clear();
                    for (int n = 0; n < JobsAtATime; n++)
                    {
                        _jobs.Add(await looker.StartAsync(_file));
                    }
                }

                await RoundAsync(servers, isKill: round % 2 == 0);
            }
        }
        finally
        {
            foreach (ServedBench? server in servers)
            {
                if (server is not null)
                {
                    await server.DisposeAsync();
                }
            }
        }
    }

    private async Task RoundAsync(ServedBench?[] servers, bool isKill)
    {
        using CancellationTokenSource stop = new();
        Client[] clients =
        [
            .. servers.SelectMany((s, n) => Enumerable.Range(0, ClientsEach).Select(c => new Client(s!.Address, string.Create(CultureInfo.InvariantCulture, $"device {n}{c}"), Ledger))),
        ];
        Task[] saves = [.. clients.Select(c => c.SaveAsync([.. _jobs], new Random(random.Next()), stop.Token))];
        await Task.Delay(random.Next(50, 500));
        if (isKill)
        {
            Kills++;
            int which = random.Next(2);
            await servers[which]!.KillAsync();
            await servers[which]!.DisposeAsync();
            servers[which] = null;
        }
        else
        {
            Restarts++;
            using Process again = Process.Start("/bin/sh", ["-c", restart]);
            await again.WaitForExitAsync();
            if (again.ExitCode != 0)
            {
                throw new InvalidOperationException($"the database was not started again: {restart}");
            }

            foreach (ServedBench? server in servers)
            {
                await BackAsync(server!);
            }
        }

        await Task.Delay(random.Next(100, 300));
        await stop.CancelAsync();
        try
        {
            await Task.WhenAll(saves);
        }
        catch (InvalidOperationException)
        {
            // An answer that should never be: what the servers said of it.
            Console.Error.WriteLine(string.Join("\n", servers.Select(s => s?.Said)));
            throw;
        }

        Array.ForEach(clients, c => c.Dispose());
    }

    private async Task BackAsync(ServedBench server)
    {
        using Client client = new(server.Address, "looker", Ledger);
        long start = Stopwatch.GetTimestamp();
        while (await client.HealthAsync() != HttpStatusCode.OK)
        {
            if (Stopwatch.GetElapsedTime(start) > LongestAway)
            {
                throw new InvalidOperationException("the server is not back after a minute");
            }

            await Task.Delay(50);
        }

        TimeSpan took = Stopwatch.GetElapsedTime(start);
        LongestBack = took > LongestBack ? took : LongestBack;
    }

    /// <summary>What was called kept is there, once; what nobody heard of is sent again, under the same action.</summary>
    private async Task LookAsync(Client client)
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

        foreach (Sent sent in unheard.Where(s => _jobs.Contains(s.Job)))
        {
            await client.SaveAsync(sent);
        }

        Ledger.Compare(await client.KeptAsync(_jobs), _jobs.ToHashSet());
    }
}
