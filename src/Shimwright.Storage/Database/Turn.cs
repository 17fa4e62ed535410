using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Shimwright.Storage.Database;

/// <summary>Work that one of several servers does for all: who has the turn does it, the others leave it alone. A file has one server, which always has it.</summary>
internal static class Turn
{
    /// <summary>Numbers that nobody else on the server is likely to take.</summary>
    public const long Forecasts = 5_174_661_945;

    /// <summary>Takes the turn, where nobody has it.</summary>
    /// <param name="open">Opens the database.</param>
    /// <param name="work">Which work.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The turn, given back when it is disposed of; null where another server has it.</returns>
    public static async Task<IAsyncDisposable?> TakeAsync(Func<BenchContext> open, long work, CancellationToken cancel)
    {
        BenchContext context = open();
        if (context is not PostgresBench)
        {
            return context;
        }

        try
        {
            // The turn belongs to the connection: whatever happens to this server, the database gives it back.
            await context.Database.OpenConnectionAsync(cancel);
            if (await context.Database.SqlQuery<bool>($"SELECT pg_try_advisory_lock({work}) AS \"Value\"").SingleAsync(cancel))
            {
                return new Held(context, work);
            }
        }
        catch
        {
            await context.DisposeAsync();
            throw;
        }

        await context.DisposeAsync();
        return null;
    }

    private sealed class Held(BenchContext context, long work) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            try
            {
                await context.Database.ExecuteSqlAsync($"SELECT pg_advisory_unlock({work})");
            }
            catch (Exception e) when (e is NpgsqlException or InvalidOperationException)
            {
                // The connection is gone, and the turn with it.
            }
            finally
            {
                await context.DisposeAsync();
            }
        }
    }
}
