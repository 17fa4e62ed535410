using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Shimwright.Storage.Database;

/// <summary>For the migration tool: the model on SQLite, without a file.</summary>
internal sealed class SqliteDesign : IDesignTimeDbContextFactory<SqliteBench>
{
    public SqliteBench CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<SqliteBench>().UseSqlite("Data Source=:memory:").Options);
}

/// <summary>For the migration tool: the model on PostgreSQL, without a server.</summary>
internal sealed class PostgresDesign : IDesignTimeDbContextFactory<PostgresBench>
{
    public PostgresBench CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<PostgresBench>().UseNpgsql("Host=localhost").Options);
}
