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

    internal static BenchDatabaseException Damaged(string file, string what) => new(
        $"{file}: the file is damaged: {what}; put the newest copy in its place with 'shimwright restore', which keeps the damaged file", null);

    internal static BenchDatabaseException DamagedCopy(string file, string what) => new(
        $"{file}: this copy is damaged, and nothing was changed: {what}; take an older one", null);

    internal static BenchDatabaseException NoBench(string file) => new(
        $"{file}: there is no bench in this file, and nothing was changed; a copy of a bench that was open misses what lay in the -wal file beside it, so make copies with 'shimwright backup'", null);

    internal static BenchDatabaseException InUse(string file) => new(
        $"{file}: a program has this bench open, and nothing was changed; close it (Ctrl-C in its window) and try again", null);

    internal static BenchDatabaseException NoFile(string file) => new($"{file}: there is no such file; name a copy that 'shimwright backup' or 'shimwright export' has written", null);

    internal static BenchDatabaseException NotWritten(string file, Exception e) => new(
        $"{file}: the copy could not be written ({(e is SqliteException sqlite ? ReasonOf(sqlite).Split("; ")[0] : e.Message.TrimEnd('.'))}); name a file in a folder that is there, that you may write to and that has room", e);

    public static BenchDatabaseException NotHere(string file) => new($"{file}: there is no bench here; name its file with --db", null);

    internal static BenchDatabaseException IsThere(string file) => new(
        $"{file}: there is such a file already, and it was left as it is; name another, or add --replace", null);

    internal static BenchDatabaseException NotEmpty(string description) => new(
        $"{description}: this bench is not empty, and nothing was changed; name a new one with --db, or put the archive in its place with 'shimwright restore'", null);

    internal static BenchDatabaseException Moved(string file) => new(
        $"{file}: the file of the bench was moved or taken away, and what was sent last was not kept; put it back, or stop the program and start it with the file that is to be used", null);

    internal static BenchDatabaseException NoRoom(string file) => new($"{file}: the disk is all but full; make room, or the next entries cannot be kept", null);

    internal static BenchDatabaseException Refused(string file, IEnumerable<object> problems) => new(
        $"{file}: this archive cannot be taken in, and nothing was changed:{string.Concat(problems.Select(p => $"\n  {p}"))}", null);

    internal static BenchDatabaseException Older(string description) => new(
        $"{description}: an older Shimwright has made this bench; 'shimwright serve' brings it up and sets a copy aside, then check it", null);

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
