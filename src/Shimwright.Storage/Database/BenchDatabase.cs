using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using Shimwright.Storage.Engines;
using Shimwright.Storage.Jobs;
using Shimwright.Storage.Settings;

namespace Shimwright.Storage.Database;

/// <summary>The database of a bench: a SQLite file, or a PostgreSQL server that several benches share.</summary>
public sealed class BenchDatabase
{
    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;

    private BenchDatabase(string description, string? file, TimeProvider time, Func<BenchContext> open)
    {
        Description = description;
        File = file;
        _time = time;
        _open = open;
        Engines = new EngineStore(open, time);
        Jobs = new JobStore(open, time);
        Settings = new SettingsStore(open, time);
    }

    /// <summary>What it is, for people, without a password.</summary>
    public string Description { get; }

    /// <summary>The SQLite file, or null.</summary>
    public string? File { get; }

    /// <summary>Engines and their cards.</summary>
    public EngineStore Engines { get; }

    /// <summary>Jobs and their facts.</summary>
    public JobStore Jobs { get; }

    /// <summary>The bench's settings.</summary>
    public SettingsStore Settings { get; }

    /// <summary>The database at an address.</summary>
    /// <param name="address">A path of a SQLite file, or the connection text of a PostgreSQL server ("Host=…").</param>
    /// <param name="time">The clock.</param>
    /// <returns>The database; nothing is opened yet.</returns>
    public static BenchDatabase At(string address, TimeProvider time)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(address);
        return IsServer(address) ? OnPostgres(address, time) : OnSqlite(Path.GetFullPath(address), time);
    }

    /// <summary>Whether an address is that of a server.</summary>
    /// <param name="address">The address.</param>
    /// <returns>Whether it is.</returns>
    public static bool IsServer(string address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return address.Contains("Host=", StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Brings the tables up to this program's state; a SQLite file is copied aside first where anything changes.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The copy that was set aside, or null.</returns>
    public async Task<string?> PrepareAsync(CancellationToken cancel = default)
    {
        if (File is not null)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(File)!);
        }

        await using BenchContext context = _open();
        string? copy = null;
        if (File is not null && System.IO.File.Exists(File) && (await context.Database.GetPendingMigrationsAsync(cancel)).Any())
        {
            copy = await SetAsideAsync(cancel);
        }

        await context.Database.MigrateAsync(cancel);
        return copy;
    }

    /// <summary>Whether the database answers.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether it does.</returns>
    public async Task<bool> AnswersAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await context.Database.CanConnectAsync(cancel);
    }

    internal BenchContext NewContext() => _open();

    /// <summary>A whole copy, the write-ahead log included, made by the database itself.</summary>
    private async Task<string> SetAsideAsync(CancellationToken cancel)
    {
        string stamp = _time.GetUtcNow().ToString("yyyyMMdd-HHmmss", CultureInfo.InvariantCulture);
        string copy = $"{File}.before-{stamp}";
        for (int n = 2; System.IO.File.Exists(copy); n++)
        {
            copy = string.Create(CultureInfo.InvariantCulture, $"{File}.before-{stamp}-{n}");
        }

        await using var from = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = File, Mode = SqliteOpenMode.ReadWrite, Pooling = false }.ToString());
        await from.OpenAsync(cancel);
        await using var to = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = copy, Pooling = false }.ToString());
        await to.OpenAsync(cancel);
        from.BackupDatabase(to);
        return copy;
    }

    private static BenchDatabase OnSqlite(string file, TimeProvider time)
    {
        string connection = new SqliteConnectionStringBuilder { DataSource = file, ForeignKeys = true, DefaultTimeout = 15 }.ToString();
        DbContextOptions<SqliteBench> options = new DbContextOptionsBuilder<SqliteBench>()
            .UseSqlite(connection).AddInterceptors(new SqliteSafety()).Options;
        return new(file, file, time, () => new SqliteBench(options));
    }

    private static BenchDatabase OnPostgres(string address, TimeProvider time)
    {
        var builder = new NpgsqlConnectionStringBuilder(address);
        DbContextOptions<PostgresBench> options = new DbContextOptionsBuilder<PostgresBench>().UseNpgsql(builder.ToString()).Options;
        return new($"PostgreSQL database {builder.Database} on {builder.Host}", null, time, () => new PostgresBench(options));
    }
}
