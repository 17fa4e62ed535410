using Microsoft.Data.Sqlite;
using Npgsql;

namespace Shimwright.Storage.Tests.Samples;

/// <summary>A database of a test's own, gone when the test is done.</summary>
internal sealed class TestDatabase : IAsyncDisposable
{
    /// <summary>The variable that holds the connection text of a PostgreSQL on which databases may be made.</summary>
    public const string Variable = "SHIMWRIGHT_TEST_POSTGRES";

    private readonly Func<ValueTask> _remove;

    private TestDatabase(string address, Func<ValueTask> remove)
    {
        Address = address;
        _remove = remove;
        Bench = Another();
    }

    public string Address { get; }

    /// <summary>A bench on the database.</summary>
    public BenchDatabase Bench { get; }

    public ManualTime Time { get; } = new();

    /// <summary>Another program's view of the same database.</summary>
    public BenchDatabase Another() => BenchDatabase.At(Address, Time);

    /// <summary>A database with its tables.</summary>
    public static async Task<TestDatabase> PreparedAsync(DatabaseKind kind)
    {
        TestDatabase database = await EmptyAsync(kind);
        Assert.Null(await database.Bench.PrepareAsync(Cancel));
        return database;
    }

    /// <summary>A place where a database can be made: an empty one on the server, a path without a file for SQLite.</summary>
    public static Task<TestDatabase> EmptyAsync(DatabaseKind kind, bool make = true) =>
        kind == DatabaseKind.Sqlite ? Task.FromResult(OnSqlite()) : OnPostgresAsync(make);

    public ValueTask DisposeAsync() => _remove();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static TestDatabase OnSqlite()
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-storage-").FullName;
        return new(Path.Combine(folder, "kept here", "bench.db"), () =>
        {
            SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
            return ValueTask.CompletedTask;
        });
    }

    private static async Task<TestDatabase> OnPostgresAsync(bool make)
    {
        string server = Environment.GetEnvironmentVariable(Variable) ?? "";
        if (server.Length == 0)
        {
            Assert.Fail($"No PostgreSQL to test on. Run ./test, or eng/postgres with this program, which starts one (package \"postgresql\"); or set {Variable} to the connection text of a server on which databases may be made.");
        }

        string name = $"shimwright_{Guid.NewGuid():N}";
        await using NpgsqlDataSource source = NpgsqlDataSource.Create(server);
        if (make)
        {
            await RunAsync(source, $"CREATE DATABASE {name} TEMPLATE template0 ENCODING 'UTF8' {await LocaleAsync(source)}");
        }

        string address = new NpgsqlConnectionStringBuilder(server) { Database = name }.ToString();
        return new(address, async () =>
        {
            await using (NpgsqlConnection pooled = new(address))
            {
                NpgsqlConnection.ClearPool(pooled);
            }

            await using NpgsqlDataSource again = NpgsqlDataSource.Create(server);
            await RunAsync(again, $"DROP DATABASE IF EXISTS {name} WITH (FORCE)");
        });
    }

    /// <summary>A server that sorts as people do, not by bytes, where it can: so that nothing leans on the one or the other.</summary>
    private static async Task<string> LocaleAsync(NpgsqlDataSource source)
    {
        await using NpgsqlConnection connection = await source.OpenConnectionAsync(Cancel);
        return connection.PostgreSqlVersion.Major >= 15 ? "LOCALE_PROVIDER icu ICU_LOCALE 'en'" : "";
    }

    private static async Task RunAsync(NpgsqlDataSource source, string order)
    {
        await using NpgsqlCommand command = source.CreateCommand(order);
        await command.ExecuteNonQueryAsync(CancellationToken.None);
    }
}
