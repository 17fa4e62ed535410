using Npgsql;

namespace Shimwright.Testing.Benches;

/// <summary>The PostgreSQL on which the tests make their databases.</summary>
internal static class TestServer
{
    /// <summary>The variable that holds the connection text of a PostgreSQL on which databases may be made.</summary>
    public const string Variable = "SHIMWRIGHT_TEST_POSTGRES";

    private static readonly Lazy<NpgsqlDataSource> Source = new(() => NpgsqlDataSource.Create(Address));

    private static string Address
    {
        get
        {
            string server = Environment.GetEnvironmentVariable(Variable) ?? "";
            if (server.Length == 0)
            {
                Assert.Fail($"No PostgreSQL to test on. Run ./test, or eng/postgres with this program, which starts one (package \"postgresql\"); or set {Variable} to the connection text of a server on which databases may be made.");
            }

            return server;
        }
    }

    public static string AddressOf(string database) => new NpgsqlConnectionStringBuilder(Address) { Database = database }.ToString();

    public static string NameIn(string address) => new NpgsqlConnectionStringBuilder(address).Database!;

    /// <summary>How an empty database is made: one that sorts as people do, not by bytes, where the server can, so that nothing leans on the one or the other.</summary>
    public static async Task<string> BlankAsync()
    {
        await using NpgsqlConnection connection = await Source.Value.OpenConnectionAsync();
        return "TEMPLATE template0 ENCODING 'UTF8'" + (connection.PostgreSqlVersion.Major >= 15 ? " LOCALE_PROVIDER icu ICU_LOCALE 'en'" : "");
    }

    public static async Task RunAsync(string order)
    {
        await using NpgsqlCommand command = Source.Value.CreateCommand(order);
        await command.ExecuteNonQueryAsync(CancellationToken.None);
    }
}
