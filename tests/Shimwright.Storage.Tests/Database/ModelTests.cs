using Microsoft.EntityFrameworkCore;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Tests.Database;

/// <summary>The migrations make the tables that the model is about; no server is needed to see it.</summary>
public class ModelTests
{
    [Fact]
    public void Model_OnSqlite_HasNoChangesWithoutAMigration()
    {
        using SqliteBench context = new SqliteDesign().CreateDbContext([]);
        Assert.False(context.Database.HasPendingModelChanges());
        Assert.NotEmpty(context.Database.GetMigrations());
    }

    [Fact]
    public void Model_OnPostgres_HasNoChangesWithoutAMigration()
    {
        using PostgresBench context = new PostgresDesign().CreateDbContext([]);
        Assert.False(context.Database.HasPendingModelChanges());
        Assert.NotEmpty(context.Database.GetMigrations());
    }

    [Fact]
    public void Migrations_OfBothDatabases_AreTheSameSteps()
    {
        using SqliteBench sqlite = new SqliteDesign().CreateDbContext([]);
        using PostgresBench postgres = new PostgresDesign().CreateDbContext([]);
        Assert.Equal(Names(sqlite), Names(postgres));
    }

    private static string[] Names(DbContext context) => [.. context.Database.GetMigrations().Select(m => m[(m.IndexOf('_', StringComparison.Ordinal) + 1)..])];
}
