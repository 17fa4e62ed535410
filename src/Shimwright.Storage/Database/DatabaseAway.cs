using Microsoft.Data.Sqlite;
using Npgsql;

namespace Shimwright.Storage.Database;

/// <summary>Tells a database that is away, full or damaged from a fault of the program.</summary>
internal static class DatabaseAway
{
    private const string SeeToServer = "see that the server runs and can be reached";

    /// <summary>Why it does not answer and what to do; null where it did answer.</summary>
    public static (string Reason, string Next)? Why(Exception fault)
    {
        for (Exception? at = fault; at is not null; at = at.InnerException)
        {
            switch (at)
            {
                case SqliteException { SqliteErrorCode: 5 or 6 or 8 or 10 or 11 or 13 or 14 or 26 } sqlite:
                    return BenchDatabaseException.ReasonOf(sqlite).Split("; ", 2) is [var reason, var next] ? (reason, next) : null;
                case BenchDatabaseException gone:
                    return gone.Message.Split("; ", 2) is [var what, var then] ? (what, then) : null;
                case SqliteException { SqliteErrorCode: 1 } sqlite when sqlite.Message.Contains("no such table", StringComparison.Ordinal):
                    return ("the file of the bench is gone, and an empty one is in its place", "stop the program, put the file back or take a copy, and start again");
                case PostgresException server:
                    // Classes of the PostgreSQL manual, appendix A: connection, authorization, catalog name, resources, intervention, system.
                    return server.SqlState[..2] is "08" or "28" or "3D" or "53" or "57" or "58" || server.SqlState == PostgresErrorCodes.ReadOnlySqlTransaction
                        ? ($"the server answered: {server.MessageText}", SeeToServer)
                        : null;
                case NpgsqlException server:
                    return (server.Message.TrimEnd('.'), SeeToServer);
            }
        }

        return null;
    }
}
