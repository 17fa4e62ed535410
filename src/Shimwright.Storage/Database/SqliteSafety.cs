using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Shimwright.Storage.Database;

/// <summary>Sets every SQLite connection so that what was acknowledged is on the disk and references are kept.</summary>
internal sealed class SqliteSafety : DbConnectionInterceptor
{
    private const string Pragmas = "PRAGMA busy_timeout=15000; PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using DbCommand command = Command(connection);
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(
        DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        await using DbCommand command = Command(connection);
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    private static DbCommand Command(DbConnection connection)
    {
        DbCommand command = connection.CreateCommand();
        command.CommandText = Pragmas;
        return command;
    }
}
