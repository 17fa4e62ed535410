using Shimwright.Storage.Database;

namespace Shimwright.Storage.Tests.Database;

public class AddressTests
{
    [Theory]
    [InlineData("Host=db.local;Database=bench", true)]
    [InlineData("database=bench; host = db.local", true)]
    [InlineData("Server=db.local;Database=bench", true)]
    [InlineData("bench.db", false)]
    [InlineData("/srv/ghost=1/bench.db", false)]
    [InlineData("a;b.db", false)]
    public void IsServer_Address_IsThatOfAServerWhereItNamesAHost(string address, bool isServer) => Assert.Equal(isServer, BenchDatabase.IsServer(address));

    [Fact]
    public void At_Path_IsTheWholePath()
    {
        BenchDatabase bench = BenchDatabase.At("some/bench.db", TimeProvider.System);
        Assert.Equal(Path.GetFullPath("some/bench.db"), bench.File);
        Assert.Equal(bench.File, bench.Description);
    }

    [Fact]
    public void At_Server_IsDescribedWithoutPassword()
    {
        BenchDatabase bench = BenchDatabase.At("Host=db.local;Database=bench;Username=sam;Password=secret", TimeProvider.System);
        Assert.Null(bench.File);
        Assert.Equal("PostgreSQL database bench on db.local", bench.Description);
    }

    [Theory]
    [InlineData("Host=db.local;Colour=red")]
    [InlineData("Host=db.local;Port=many")]
    [InlineData("Host=;Database=bench")]
    [InlineData("postgres://sam@db.local/bench")]
    [InlineData("postgresql://db.local/bench")]
    public void At_ConnectionTextThatCannotBeRead_ShowsOneThatCan(string address)
    {
        BenchDatabaseException e = Assert.Throws<BenchDatabaseException>(() => BenchDatabase.At(address, TimeProvider.System));
        Assert.Contains("Host=server;Database=shimwright", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    public void At_Nothing_Throws(string address) => Assert.Throws<ArgumentException>(() => BenchDatabase.At(address, TimeProvider.System));

    [Theory]
    [InlineData("Host=bench.invalid;Database=bench;Username=sam;Password=secret;Timeout=5", "bench")]
    [InlineData("Host=bench.invalid", "shimwright")]
    public async Task PrepareAsync_HostThatNobodyKnows_SaysWhatToSee(string address, string database)
    {
        BenchDatabase bench = BenchDatabase.At(address, TimeProvider.System);
        BenchDatabaseException e = await Assert.ThrowsAsync<BenchDatabaseException>(() => bench.PrepareAsync(TestContext.Current.CancellationToken));
        Assert.StartsWith($"PostgreSQL database {database} on bench.invalid: ", e.Message, StringComparison.Ordinal);
        Assert.Contains("see that the server runs, and that host, port, database, user and password in --db are right", e.Message, StringComparison.Ordinal);
    }

    /// <summary>Customers' names lay open to everybody with an account on the machine.</summary>
    [Fact]
    public async Task PrepareAsync_ANewFile_IsForItsOwnerAlone()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Windows keeps rights otherwise: the user's folder is the user's.");
            return;
        }

        string folder = Directory.CreateTempSubdirectory("shimwright-mode-").FullName;
        try
        {
            BenchDatabase bench = BenchDatabase.At(Path.Combine(folder, "bench.db"), TimeProvider.System);
            await bench.PrepareAsync(TestContext.Current.CancellationToken);
            await bench.Settings.CurrentAsync(TestContext.Current.CancellationToken);
            foreach (string file in Directory.GetFiles(folder))
            {
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
            }
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }
}
