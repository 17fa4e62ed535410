using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Shimwright.Storage.Database;
using Shimwright.Storage.Due;
using Shimwright.Storage.Engines;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Due;

/// <summary>How SQLite goes about the list of what is due: in a large fleet two engines must not cost a look at each.</summary>
public class DueListTests
{
    [Fact]
    public async Task Dated_OnSqlite_GoesAlongTheIndexOnTheDay()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using BenchContext context = database.Bench.NewContext();
        using DbCommand command = DueStore.Dated(context, EngineStore.Found(context, null, retired: false)).Take(2).CreateDbCommand();
        command.CommandText = "EXPLAIN QUERY PLAN " + command.CommandText;
        await context.Database.OpenConnectionAsync(Cancel);
        List<string> steps = [];
        await using DbDataReader reader = await command.ExecuteReaderAsync(Cancel);
        while (await reader.ReadAsync(Cancel))
        {
            steps.Add(reader.GetString(3));
        }

        Assert.Equal("SEARCH f USING INDEX IX_forecasts_DueAt (DueAt>?)", steps[0]);
        Assert.DoesNotContain(steps, s => s.StartsWith("SCAN", StringComparison.Ordinal));
    }
}
