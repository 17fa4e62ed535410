using Microsoft.Data.Sqlite;

namespace Shimwright.Storage.Database;

/// <summary>Whole copies of a SQLite file, the write-ahead log included, made by the database itself while others write.</summary>
internal static class SqliteCopy
{
    /// <summary>Copies a file into another that is not there yet. What comes out is one file that needs none beside it.</summary>
    public static async Task MakeAsync(string from, string to, CancellationToken cancel)
    {
        SqliteFile.MakeForItsOwner(to);
        try
        {
            await using SqliteConnection source = await SqliteFile.OpenAsync(from, SqliteOpenMode.ReadWrite, cancel);
            await using SqliteConnection target = await SqliteFile.OpenAsync(to, SqliteOpenMode.ReadWriteCreate, cancel);
            source.BackupDatabase(target);
            await SqliteFile.RunAsync(target, "PRAGMA journal_mode=DELETE", cancel);
        }
        catch
        {
            // Half a copy looks like a whole one.
            Delete(to);
            throw;
        }
    }

    /// <summary>Takes away a file that was only on its way, and what lies beside it.</summary>
    public static void Delete(string file)
    {
        if (!Directory.Exists(Path.GetDirectoryName(file)))
        {
            return;
        }

        foreach (string ending in SqliteFile.Beside.Prepend(""))
        {
            File.Delete(file + ending);
        }
    }
}
