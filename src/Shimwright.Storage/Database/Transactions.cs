using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Shimwright.Storage.Database;

/// <summary>Work in one transaction. Where a server's connection breaks it is begun again from the start: what is sent carries an action, and counts once.</summary>
internal static class Transactions
{
    /// <summary>Does work in a transaction; what it does not commit is taken back.</summary>
    public static Task<T> InTransactionAsync<T>(this BenchContext context, Func<IDbContextTransaction, Task<T>> work, CancellationToken cancel) =>
        context.Database.CreateExecutionStrategy().ExecuteAsync(
            async () =>
            {
                // What an attempt before this one has read or added is forgotten.
                context.ChangeTracker.Clear();
                await using IDbContextTransaction transaction = await context.Database.BeginTransactionAsync(cancel);
                return await work(transaction);
            });
}
