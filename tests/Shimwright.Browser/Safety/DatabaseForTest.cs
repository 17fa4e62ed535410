using Npgsql;

namespace Shimwright.Browser.Safety;

/// <summary>A database of a test's own: a SQLite file, or one on the PostgreSQL that ./test starts.</summary>
internal sealed class DatabaseForTest(string address, string folder, Func<ValueTask> remove) : IAsyncDisposable
{
    private const string Variable = "SHIMWRIGHT_TEST_POSTGRES";

    public string Address { get; } = address;

    /// <summary>A folder that goes with it.</summary>
    public string Folder { get; } = folder;

    public static async Task<DatabaseForTest> MakeAsync(bool onServer)
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-killed-").FullName;
        if (!onServer)
        {
            return new(Path.Combine(folder, "bench.db"), folder, () => ValueTask.CompletedTask);
        }

        string server = Environment.GetEnvironmentVariable(Variable) ?? "";
        Assert.True(server.Length > 0, $"No PostgreSQL to test on: run ./test, or this program through eng/postgres, which starts one; or set {Variable}.");
        string name = $"shimwright_killed_{Guid.CreateVersion7(TimeProvider.System.GetUtcNow()):N}";
        await RunAsync(server, $"CREATE DATABASE {name}");
        string address = new NpgsqlConnectionStringBuilder(server) { Database = name }.ToString();
        return new(address, folder, async () => await RunAsync(server, $"DROP DATABASE IF EXISTS {name} WITH (FORCE)"));
    }

    public async ValueTask DisposeAsync()
    {
        NpgsqlConnection.ClearAllPools();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        await remove();
        Directory.Delete(Folder, recursive: true);
    }

    private static async Task RunAsync(string server, string order)
    {
        await using NpgsqlDataSource source = NpgsqlDataSource.Create(server);
        await using NpgsqlCommand command = source.CreateCommand(order);
        await command.ExecuteNonQueryAsync();
    }
}
