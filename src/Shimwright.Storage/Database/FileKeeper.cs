using System.Data.Common;
using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Shimwright.Storage.Database;

/// <summary>
/// Holds a bench's file open while the bench is served, and looks after every save whether it is still where it was: what is written
/// into a file that was moved away or taken away must not be called kept.
/// </summary>
internal sealed class FileKeeper(string file) : DbTransactionInterceptor, IDisposable
{
    /// <summary>SQLITE_FCNTL_HAS_MOVED of sqlite3.h: whether the path leads to another file than the one that is open, or to none.</summary>
    private const int HasMoved = 20;

    private SqliteConnection? _held;

    /// <summary>Whether a program holds the file.</summary>
    public bool Holds => _held is not null;

    /// <summary>Holds the file from now on.</summary>
    public async Task HoldAsync(CancellationToken cancel)
    {
        SqliteConnection held = await SqliteFile.OpenAsync(file, SqliteOpenMode.ReadWrite, cancel);
        // A connection that has read nothing does not keep others from taking the file for themselves.
        await SqliteFile.RunAsync(held, "SELECT count(*) FROM sqlite_master", cancel);
        _held = held;
    }

    /// <summary>Fails where the file is no longer where it was.</summary>
    /// <param name="used">The connection that was used, which may have been opened while another file was in its place; or null.</param>
    public void Check(SqliteConnection? used = null)
    {
        if (_held is not { } held)
        {
            return;
        }

        lock (held)
        {
            if (Has(held) || (used is { State: System.Data.ConnectionState.Open } && Has(used)) || !File.Exists(file + "-wal"))
            {
                throw BenchDatabaseException.Moved(file);
            }
        }
    }

    /// <inheritdoc/>
    public override void TransactionCommitted(DbTransaction transaction, TransactionEndEventData eventData) => Check(UsedFor(eventData));

    /// <inheritdoc/>
    public override Task TransactionCommittedAsync(DbTransaction transaction, TransactionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        Check(UsedFor(eventData));
        return Task.CompletedTask;
    }

    public void Dispose()
    {
        _held?.Dispose();
        _held = null;
    }

    private static SqliteConnection? UsedFor(TransactionEndEventData end) => end.Context?.Database.GetDbConnection() as SqliteConnection;

    /// <summary>Whether the path of a connection's file leads elsewhere by now.</summary>
    private static bool Has(SqliteConnection connection)
    {
        int moved = 0;
        return sqlite3_file_control(connection.Handle!.DangerousGetHandle(), "main", HasMoved, ref moved) != 0 || moved != 0;
    }

    [DllImport("e_sqlite3", CharSet = CharSet.Ansi, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.AssemblyDirectory | DllImportSearchPath.SafeDirectories)]
    private static extern int sqlite3_file_control(IntPtr database, string name, int operation, ref int value);
}
