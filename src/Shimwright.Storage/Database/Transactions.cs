using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

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
                return await context.ToldWhenCutAsync(() => work(transaction));
            });

    /// <summary>
    /// Does work, and says so where a server's connection was cut under it: a transaction on such a connection says only that it is over, so the
    /// connection is asked. What is thrown then may be done again.
    /// </summary>
    public static async Task<T> ToldWhenCutAsync<T>(this BenchContext context, Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (InvalidOperationException over) when (context.Database.GetDbConnection() is NpgsqlConnection { State: not ConnectionState.Open })
        {
            throw new NpgsqlException("the connection to the server broke off", new IOException(over.Message, over));
        }
    }
}
