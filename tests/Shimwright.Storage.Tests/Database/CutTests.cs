using Microsoft.EntityFrameworkCore;
using Shimwright.Storage.Database;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Database;

/// <summary>A server's connection that is cut in the middle of a transaction.</summary>
public class CutTests
{
    [Fact]
    public async Task InTransactionAsync_ConnectionWasCutBetweenTwoCommands_IsBegunAgain()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Postgres);
        await using BenchContext context = Contexts.OnServer(database.Address)();
        int attempts = 0;
        int left = await context.InTransactionAsync(
            async transaction =>
            {
                await context.Jobs.CountAsync(Cancel);
                if (++attempts == 1)
                {
                    await CutAsync(context);
                    // What is said then is that the transaction is over, by whom depends on what the runtime has compiled into one.
                    throw new InvalidOperationException("This transaction has ended.");
                }

                await transaction.CommitAsync(Cancel);
                return attempts;
            },
            Cancel);
        Assert.Equal(2, left);
    }

    [Fact]
    public async Task InTransactionAsync_ConnectionHolds_AFaultOfTheProgramIsNotDoneAgain()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Postgres);
        await using BenchContext context = Contexts.OnServer(database.Address)();
        int attempts = 0;
        InvalidOperationException fault = await Assert.ThrowsAsync<InvalidOperationException>(() => context.InTransactionAsync<int>(
            _ => ++attempts > 0 ? throw new InvalidOperationException("A fault.") : Task.FromResult(attempts),
            Cancel));
        Assert.Equal((1, "A fault."), (attempts, fault.Message));
        Assert.Null(BenchDatabase.WhyAway(fault));
    }

    private static async Task CutAsync(BenchContext context)
    {
        Exception cut = await Assert.ThrowsAnyAsync<Exception>(() => context.Database.ExecuteSqlRawAsync("SELECT pg_terminate_backend(pg_backend_pid())", Cancel));
        Assert.NotNull(BenchDatabase.WhyAway(cut));
    }
}
