using Microsoft.Data.Sqlite;

namespace Shimwright.Storage.Database;

/// <summary>Whether a SQLite file is in order, as SQLite itself sees it: its pages, its tables and, in a file of usual size, its indexes.</summary>
internal static class FileOrder
{
    /// <summary>Up to this size a file is read with its indexes, bytes; beyond it without.</summary>
    private const long UsualSize = 256L * 1024 * 1024;

    /// <summary>What is not in order, in words.</summary>
    public static async Task<IReadOnlyList<string>> DamageAsync(string file, CancellationToken cancel)
    {
        List<string> damage = [];
        try
        {
            await using SqliteConnection connection = await SqliteFile.OpenAsync(file, SqliteOpenMode.ReadWrite, cancel);
            await using SqliteCommand command = connection.CreateCommand();
            command.CommandText = new FileInfo(file).Length <= UsualSize ? "PRAGMA integrity_check(100)" : "PRAGMA quick_check(100)";
            await using SqliteDataReader said = await command.ExecuteReaderAsync(cancel);
            while (await said.ReadAsync(cancel))
            {
                if (said.GetString(0) is not "ok" and var what)
                {
                    damage.Add($"it is not in order ({what.ReplaceLineEndings(" ")})");
                }
            }
        }
        catch (SqliteException e) when (e.SqliteErrorCode is 11 or 26)
        {
            damage.Add($"it cannot be read to its end ({e.Message.TrimEnd('.')})");
        }

        return damage;
    }
}
