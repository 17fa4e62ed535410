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
}
