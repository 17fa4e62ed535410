using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Shimwright.Storage.Database;

/// <summary>Contexts on a database.</summary>
internal static class Contexts
{
    /// <summary>How contexts on a SQLite file are opened.</summary>
    /// <param name="file">The file; it must be there, since a file that vanished is not made anew.</param>
    /// <param name="keeper">Says whether the file is still where it was, or null.</param>
    /// <param name="isPooled">Whether connections are kept open for the next use.</param>
    public static Func<BenchContext> OnFile(string file, FileKeeper? keeper = null, bool isPooled = true)
    {
        string connection = new SqliteConnectionStringBuilder
        {
            DataSource = file,
            Mode = SqliteOpenMode.ReadWrite,
            ForeignKeys = true,
            DefaultTimeout = 15,
            Pooling = isPooled,
        }.ToString();
        DbContextOptionsBuilder<SqliteBench> builder = new DbContextOptionsBuilder<SqliteBench>().UseSqlite(connection).AddInterceptors(new SqliteSafety());
        DbContextOptions<SqliteBench> options = (keeper is null ? builder : builder.AddInterceptors(keeper)).Options;
        return () => new SqliteBench(options);
    }

    /// <summary>How contexts on a server are opened.</summary>
    /// <param name="address">The connection text.</param>
    public static Func<BenchContext> OnServer(string address)
    {
        DbContextOptions<PostgresBench> options = new DbContextOptionsBuilder<PostgresBench>().UseNpgsql(address, server => server.ExecutionStrategy(d => new ServerRetries(d))).Options;
        return () => new PostgresBench(options);
    }
}
