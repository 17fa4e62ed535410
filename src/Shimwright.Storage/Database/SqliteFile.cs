using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Shimwright.Storage.Database;

/// <summary>A bench's SQLite file: made where there is none, set aside before anything in it is rebuilt.</summary>
internal sealed class SqliteFile(string file, TimeProvider time, string? called = null)
{
    /// <summary>"SHIM": marks a file as a bench, and writing it again is the smallest real write that there is.</summary>
    private const int Mark = 0x5348494D;

    /// <summary>What SQLite keeps beside a file while it is open.</summary>
    public static IReadOnlyList<string> Beside { get; } = ["-wal", "-shm", "-journal"];

    private static readonly TimeSpan BetweenLooks = TimeSpan.FromMilliseconds(500);

    /// <summary>Brings the file up to this program's state.</summary>
    public async Task<string?> PrepareAsync(BenchContext context, CancellationToken cancel)
    {
        if (Directory.Exists(file))
        {
            throw new IOException("this is a folder");
        }

        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        await AwaitOtherStartAsync(cancel);
        bool isUsed = await IsUsedAsync(cancel);
        string? copy = null;
        if (isUsed && await FileOrder.DamageAsync(file, cancel) is { Count: > 0 } damage)
        {
            throw BenchDatabaseException.Damaged(file, string.Join("; ", damage.Take(3)));
        }

        if (!isUsed || await Upgrade.IsDueAsync(context, file, cancel))
        {
            copy = isUsed ? await SetAsideAsync(cancel) : null;
            MakeForItsOwner(file);
            KeepToItsOwner();
            await Upgrade.RunAsync(context, file, cancel);
        }

        await TryToWriteAsync(file, cancel);
        return copy;
    }

    /// <summary>
    /// Whether there is a file with something of ours in it. Where another start has just begun to make it, the mark of
    /// its work is the only table.
    /// </summary>
    public async Task<bool> IsUsedAsync(CancellationToken cancel)
    {
        if (!File.Exists(file))
        {
            return false;
        }

        await using SqliteConnection connection = await OpenAsync(file, SqliteOpenMode.ReadWrite, cancel);
        long others = await CountAsync(connection, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name <> '__EFMigrationsLock'", cancel);
        return others > 0 && (await HasTableAsync(connection, "__EFMigrationsHistory", cancel) ? true : throw BenchDatabaseException.Foreign(called ?? file));
    }

    /// <summary>
    /// Waits while another start rebuilds the file. Its mark stays behind where it was killed, and nothing would ever
    /// start again: a mark that is a minute old is taken away.
    /// </summary>
    private async Task AwaitOtherStartAsync(CancellationToken cancel)
    {
        if (!File.Exists(file))
        {
            return;
        }

        await using SqliteConnection connection = await OpenAsync(file, SqliteOpenMode.ReadWrite, cancel);
        while (await HasTableAsync(connection, "__EFMigrationsLock", cancel))
        {
            await RunAsync(connection, "DELETE FROM \"__EFMigrationsLock\" WHERE julianday(\"Timestamp\") < julianday('now', '-60 seconds')", cancel);
            if (await CountAsync(connection, "SELECT count(*) FROM \"__EFMigrationsLock\"", cancel) == 0)
            {
                return;
            }

            await Task.Delay(BetweenLooks, TimeProvider.System, cancel);
        }
    }

    /// <summary>A name beside the file for what it was before now, which no file has yet.</summary>
    public string NameAside()
    {
        string stamp = time.GetUtcNow().ToString("yyyyMMdd-HHmmss", CultureInfo.InvariantCulture);
        string copy = $"{file}.before-{stamp}";
        for (int n = 2; File.Exists(copy); n++)
        {
            copy = string.Create(CultureInfo.InvariantCulture, $"{file}.before-{stamp}-{n}");
        }

        return copy;
    }

    /// <summary>A whole copy, the write-ahead log included, made by the database itself.</summary>
    private async Task<string> SetAsideAsync(CancellationToken cancel)
    {
        string copy = NameAside();
        await SqliteCopy.MakeAsync(file, copy, cancel);
        return copy;
    }

    /// <summary>Makes a file that nobody else can read, where there is none; what the database makes beside it takes its rights.</summary>
    public static void MakeForItsOwner(string path)
    {
        FileStreamOptions options = new() { Mode = FileMode.OpenOrCreate, Access = FileAccess.Write, Share = FileShare.ReadWrite | FileShare.Delete };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        if (!File.Exists(path))
        {
            new FileStream(path, options).Dispose();
        }
    }

    /// <summary>A file from before benches were kept to their owner may be read by everybody. One that a group may write to is shared on purpose.</summary>
    private void KeepToItsOwner()
    {
        if (!OperatingSystem.IsWindows() && File.GetUnixFileMode(file) is var mode && (mode & UnixFileMode.GroupWrite) == 0)
        {
            File.SetUnixFileMode(file, mode & (UnixFileMode.UserRead | UnixFileMode.UserWrite));
        }
    }

    /// <summary>A file that cannot be written to is found out now and not at the first reading of an evening.</summary>
    public static async Task TryToWriteAsync(string file, CancellationToken cancel)
    {
        await using SqliteConnection connection = await OpenAsync(file, SqliteOpenMode.ReadWrite, cancel);
        await RunAsync(connection, string.Create(CultureInfo.InvariantCulture, $"BEGIN IMMEDIATE; PRAGMA application_id = {Mark}; COMMIT;"), cancel);
    }

    /// <summary>A connection of its own, outside the pool.</summary>
    public static async Task<SqliteConnection> OpenAsync(string path, SqliteOpenMode mode, CancellationToken cancel)
    {
        SqliteConnection connection = new(new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, DefaultTimeout = 15 }.ToString());
        try
        {
            await connection.OpenAsync(cancel);
            return connection;
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    private static async Task<bool> HasTableAsync(SqliteConnection connection, string table, CancellationToken cancel) =>
        await CountAsync(connection, $"SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = '{table}'", cancel) > 0;

    private static async Task<long> CountAsync(SqliteConnection connection, string question, CancellationToken cancel)
    {
        await using SqliteCommand command = connection.CreateCommand();
        command.CommandText = question;
        return (long)(await command.ExecuteScalarAsync(cancel))!;
    }

    /// <summary>Runs an order.</summary>
    public static async Task RunAsync(SqliteConnection connection, string order, CancellationToken cancel)
    {
        await using SqliteCommand command = connection.CreateCommand();
        command.CommandText = order;
        await command.ExecuteNonQueryAsync(cancel);
    }
}
