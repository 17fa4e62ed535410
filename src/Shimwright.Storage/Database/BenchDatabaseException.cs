using Microsoft.Data.Sqlite;

namespace Shimwright.Storage.Database;

/// <summary>A database that cannot be used. The message is for the person: which one, what is wrong, and what to do.</summary>
public sealed class BenchDatabaseException : Exception
{
    private BenchDatabaseException(string message, Exception? inner)
        : base(message, inner)
    {
    }

    internal static BenchDatabaseException OfFile(string file, Exception e) => new($"{file}: {ReasonOf(e)}", e);

    internal static BenchDatabaseException OfServer(string description, Exception e) => new(
        $"{description}: {e.Message.TrimEnd('.')}; see that the server runs, and that host, port, database, user and password in --db are right", e);

    internal static BenchDatabaseException OfAddress(Exception e) => new(
        $"--db: the connection text cannot be read ({e.Message.TrimEnd('.')}); write it as \"Host=server;Database=shimwright;Username=name;Password=...\"", e);

    internal static BenchDatabaseException Foreign(string file) => new(
        $"{file}: this database was made by another program, and nothing was changed in it; name another file with --db", null);

    internal static BenchDatabaseException Newer(string description, IEnumerable<string> unknown) => new(
        $"{description}: a newer Shimwright has used this database ({string.Join(", ", unknown)}); install that one, or take the copy that it set aside", null);

    internal static string ReasonOf(Exception e) => e is not SqliteException sqlite
        ? $"{e.Message.TrimEnd('.')}; name a file in a folder that you may write to with --db"
        : sqlite.SqliteErrorCode switch
        {
            5 or 6 => "another program holds the file; close it and try again",
            8 => "the file or its folder may not be written to; change that, or name another file with --db",
            10 => $"the disk answered with an error ({e.Message}); look at the disk, then start from a copy",
            11 => "the file is damaged; start from a copy, and keep the damaged file",
            13 => "the disk is full; make room and start again",
            14 => "the file cannot be opened or made; name a file in a folder that you may write to with --db",
            26 => "the file is no database; name another file with --db",
            _ => $"the database answered: {e.Message}",
        };
}
