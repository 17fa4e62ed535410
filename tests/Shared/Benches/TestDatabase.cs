using Microsoft.Data.Sqlite;
using Npgsql;
using Shimwright.Storage;

[assembly: AssemblyFixture(typeof(Shimwright.Testing.Benches.TestDatabase.PreparedOnes))]

namespace Shimwright.Testing.Benches;

/// <summary>A database of a test's own, gone when the test is done.</summary>
public sealed class TestDatabase : IAsyncDisposable
{
    private static readonly Dictionary<DatabaseKind, Lazy<Task<TestDatabase>>> Templates =
        Enum.GetValues<DatabaseKind>().ToDictionary(k => k, k => new Lazy<Task<TestDatabase>>(() => TemplateAsync(k)));

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

    internal ManualTime Time { get; } = new();

    /// <summary>Another program's view of the same database.</summary>
    public BenchDatabase Another() => BenchDatabase.At(Address, Time);

    /// <summary>A database with its tables: a copy of one that was prepared once.</summary>
    public static async Task<TestDatabase> PreparedAsync(DatabaseKind kind)
    {
        TestDatabase template = await Templates[kind].Value;
        if (kind == DatabaseKind.Postgres)
        {
            return await OnPostgresAsync($"TEMPLATE {TestServer.NameIn(template.Address)}");
        }

        TestDatabase database = OnSqlite();
        Directory.CreateDirectory(Path.GetDirectoryName(database.Address)!);
        File.Copy(template.Address, database.Address);
        return database;
    }

    /// <summary>A place where a database can be made: an empty one on the server, a path without a file for SQLite.</summary>
    public static async Task<TestDatabase> EmptyAsync(DatabaseKind kind) =>
        kind == DatabaseKind.Sqlite ? OnSqlite() : await OnPostgresAsync(await TestServer.BlankAsync());

    /// <summary>A name that no database on the server has yet.</summary>
    public static Task<TestDatabase> NoneOnServerAsync() => OnPostgresAsync(null);

    /// <summary>Closes every connection to it, as a program does that ends.</summary>
    public Task CloseAsync() => CloseAsync(Address);

    public ValueTask DisposeAsync() => _remove();

    /// <summary>Takes away those that the others were copies of, when all tests are done.</summary>
    public sealed class PreparedOnes : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            foreach (Lazy<Task<TestDatabase>> template in Templates.Values.Where(t => t.IsValueCreated && t.Value.IsCompletedSuccessfully))
            {
                await (await template.Value).DisposeAsync();
            }
        }
    }

    private static async Task<TestDatabase> TemplateAsync(DatabaseKind kind)
    {
        TestDatabase database = await EmptyAsync(kind);
        Assert.Null(await database.Bench.PrepareAsync(CancellationToken.None));
        // A file is whole once its last connection is closed, and a server copies only what nobody uses.
        await CloseAsync(database.Address);
        return database;
    }

    private static TestDatabase OnSqlite()
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-storage-").FullName;
        string file = Path.Combine(folder, "kept here", "bench.db");
        return new(file, async () =>
        {
            await CloseAsync(file);
            Directory.Delete(folder, recursive: true);
        });
    }

    private static async Task<TestDatabase> OnPostgresAsync(string? like)
    {
        string name = $"shimwright_{Guid.NewGuid():N}";
        string address = TestServer.AddressOf(name);
        if (like is not null)
        {
            await TestServer.RunAsync($"CREATE DATABASE {name} {like}");
        }

        return new(address, async () =>
        {
            await CloseAsync(address);
            await TestServer.RunAsync($"DROP DATABASE IF EXISTS {name} WITH (FORCE)");
        });
    }

    private static async Task CloseAsync(string address)
    {
        if (!BenchDatabase.IsServer(address))
        {
            SqliteConnection.ClearAllPools();
            return;
        }

        await using NpgsqlConnection pooled = new(address);
        NpgsqlConnection.ClearPool(pooled);
    }
}
