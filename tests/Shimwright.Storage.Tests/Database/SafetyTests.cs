using Microsoft.EntityFrameworkCore;
using Shimwright.Jobs.Facts;
using Shimwright.Storage.Database;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Database;

/// <summary>What the tables themselves see to, whatever the program does.</summary>
public class SafetyTests
{
    [Fact]
    public async Task Connections_OfEveryContext_AreSafe()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        for (int n = 0; n < 3; n++)
        {
            await using BenchContext context = database.Bench.NewContext();
            await context.Database.OpenConnectionAsync(Cancel);
            Assert.Equal("wal", await Pragma<string>(context, "journal_mode"));
            Assert.Equal(2, await Pragma<long>(context, "synchronous"));
            Assert.Equal(1, await Pragma<long>(context, "foreign_keys"));
            Assert.Equal(15_000, await Pragma<long>(context, "busy_timeout"));
        }
    }

    [Theory]
    [OnEachDatabase]
    public async Task Facts_ChangedOrTakenAway_AreKeptByTheTableItself(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.SaveAsync(job, new JobNoted("stays"));
        await using BenchContext context = database.Bench.NewContext();
        await AssertRefusedAsync(context, "UPDATE facts SET \"Fact\" = 'x'");
        await AssertRefusedAsync(context, "UPDATE facts SET \"Number\" = 7");
        await AssertRefusedAsync(context, "DELETE FROM facts");
        if (kind == DatabaseKind.Postgres)
        {
            await AssertRefusedAsync(context, "TRUNCATE facts");
        }

        Assert.Equal([new JobNoted("stays")], (await database.Bench.FindJobAsync(job)).Sheet.Entries.Select(e => e.Fact));
    }

    [Theory]
    [OnEachDatabase]
    public async Task References_ToNothing_AreRefused(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await Assert.ThrowsAsync<ArgumentException>(() => database.Bench.StartJobAsync(Guid.NewGuid()));
        Guid job = await database.Bench.StartJobAsync();
        await using BenchContext context = database.Bench.NewContext();
        await Assert.ThrowsAnyAsync<Exception>(() => context.Jobs.Where(j => j.Id == job).ExecuteUpdateAsync(s => s.SetProperty(j => j.EngineId, Guid.NewGuid()), Cancel));
        await Assert.ThrowsAnyAsync<Exception>(() => context.Engines.ExecuteDeleteAsync(Cancel));
        await Assert.ThrowsAnyAsync<Exception>(() => context.Cards.ExecuteDeleteAsync(Cancel));
    }

    private static async Task AssertRefusedAsync(BenchContext context, string order)
    {
        Exception e = await Assert.ThrowsAnyAsync<Exception>(() => context.Database.ExecuteSqlRawAsync(order, Cancel));
        Assert.Contains("Facts are added, never", e.Message, StringComparison.Ordinal);
    }

    private static async Task<T> Pragma<T>(BenchContext context, string name)
    {
        await using System.Data.Common.DbCommand command = context.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"PRAGMA {name}";
        return (T)(await command.ExecuteScalarAsync(Cancel))!;
    }
}
