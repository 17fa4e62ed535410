using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Threading.Channels;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Jobs;

/// <summary>
/// Tells whoever has a job open that something was added to it: within the program, and on PostgreSQL between the servers that share the database. Who
/// missed something is told too: after a connection was lost everybody looks again.
/// </summary>
public sealed class JobNews
{
    /// <summary>That something may have been added, nobody knows what.</summary>
    public const int Unknown = 0;

    private const string Channel = "shimwright_jobs";
    private static readonly TimeSpan BeforeAgain = TimeSpan.FromSeconds(1);

    private readonly ConcurrentDictionary<Guid, Watchers> _jobs = new();
    private readonly string? _server;
    private readonly TimeProvider _time;

    internal JobNews(string? server, TimeProvider time) => (_server, _time) = (server, time);

    /// <summary>The number of a job's last entry, each time that something is added.</summary>
    /// <param name="job">The job.</param>
    /// <param name="cancel">Ends it.</param>
    /// <returns>The numbers; <see cref="Unknown"/> where it has to be looked up.</returns>
    public async IAsyncEnumerable<int> WatchAsync(Guid job, [EnumeratorCancellation] CancellationToken cancel = default)
    {
        // Who is slow needs the newest number only.
        var mine = System.Threading.Channels.Channel.CreateBounded<int>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest });
        Watchers watchers = _jobs.AddOrUpdate(job, _ => new([mine]), (_, before) => new([.. before.All, mine]));
        try
        {
            await foreach (int last in mine.Reader.ReadAllAsync(cancel))
            {
                yield return last;
            }
        }
        finally
        {
            while (_jobs.TryGetValue(job, out watchers!))
            {
                Watchers without = new([.. watchers.All.Where(w => w != mine)]);
                if (without.All.Length == 0 ? _jobs.TryRemove(new(job, watchers)) : _jobs.TryUpdate(job, without, watchers))
                {
                    break;
                }
            }
        }
    }

    /// <summary>Hears what other servers of the same database add, for as long as it runs.</summary>
    /// <param name="cancel">Ends it.</param>
    /// <returns>When it has ended; at once on a file, which one server has.</returns>
    public async Task ListenAsync(CancellationToken cancel)
    {
        while (_server is not null && !cancel.IsCancellationRequested)
        {
            try
            {
                await HearAsync(_server, cancel);
            }
            catch (Exception e) when (e is NpgsqlException or System.Net.Sockets.SocketException or TimeoutException or IOException)
            {
                // The database is away. Pages say so by themselves; it is tried again.
            }
            catch (OperationCanceledException) when (cancel.IsCancellationRequested)
            {
                return;
            }

            try
            {
                await Task.Delay(BeforeAgain, _time, cancel);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }

    /// <summary>Tells the other servers, when the transaction that has been begun is kept.</summary>
    internal static Task TellServersAsync(BenchContext context, Guid job, int last, CancellationToken cancel) =>
        context is PostgresBench ? context.Database.ExecuteSqlAsync($"SELECT pg_notify({Channel}, {Text(job, last)})", cancel) : Task.CompletedTask;

    /// <summary>Tells those who watch here.</summary>
    internal void Tell(Guid job, int last)
    {
        if (_jobs.TryGetValue(job, out Watchers? watchers))
        {
            Array.ForEach(watchers.All, w => w.Writer.TryWrite(last));
        }
    }

    private async Task HearAsync(string server, CancellationToken cancel)
    {
        await using NpgsqlConnection connection = new(new NpgsqlConnectionStringBuilder(server) { Pooling = false, KeepAlive = 30 }.ToString());
        connection.Notification += (_, heard) =>
        {
            if (heard.Payload.Split(' ') is [var job, var last] && Guid.TryParse(job, out Guid id) && int.TryParse(last, NumberStyles.None, CultureInfo.InvariantCulture, out int number))
            {
                Tell(id, number);
            }
        };
        await connection.OpenAsync(cancel);
        await using (NpgsqlCommand listen = new($"LISTEN {Channel}", connection))
        {
            await listen.ExecuteNonQueryAsync(cancel);
        }

        foreach (Guid job in _jobs.Keys)
        {
            Tell(job, Unknown);
        }

        while (true)
        {
            await connection.WaitAsync(cancel);
        }
    }

    private static string Text(Guid job, int last) => string.Create(CultureInfo.InvariantCulture, $"{job:N} {last}");

    /// <summary>Those who watch one job. Never changed: another takes its place.</summary>
    private sealed record Watchers(Channel<int>[] All);
}
