using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Shimwright.Storage.Database;

/// <summary>Brings a database up to the state that this program knows.</summary>
internal static class Upgrade
{
    /// <summary>Whoever holds this number on a server is rebuilding; it is any number that nobody else is likely to take.</summary>
    private const long Rebuilding = 5_174_661_944;

    /// <summary>Migrates where anything is left to do; a database of a newer program is refused.</summary>
    public static async Task RunAsync(BenchContext context, string description, CancellationToken cancel)
    {
        if (await IsDueAsync(context, description, cancel))
        {
            await context.Database.MigrateAsync(cancel);
        }
    }

    /// <summary>The same on a server, where several programs may start at once: one rebuilds, the others wait and find it done.</summary>
    public static async Task RunAloneAsync(PostgresBench context, string description, CancellationToken cancel)
    {
        if (!await IsDueAsync(context, description, cancel))
        {
            return;
        }

        await MakeAsync(context, cancel);
        await context.Database.OpenConnectionAsync(cancel);
        try
        {
            await context.Database.ExecuteSqlAsync($"SELECT pg_advisory_lock({Rebuilding})", cancel);
            await RunAsync(context, description, cancel);
            await context.Database.ExecuteSqlAsync($"SELECT pg_advisory_unlock({Rebuilding})", cancel);
        }
        finally
        {
            await context.Database.CloseConnectionAsync();
        }
    }

    /// <summary>Whether anything is left to do.</summary>
    public static async Task<bool> IsDueAsync(BenchContext context, string description, CancellationToken cancel)
    {
        if (!await context.Database.CanConnectAsync(cancel))
        {
            return true;
        }

        string[] applied = [.. await context.Database.GetAppliedMigrationsAsync(cancel)];
        string[] known = [.. context.Database.GetMigrations()];
        string[] unknown = [.. applied.Except(known)];
        return unknown.Length > 0 ? throw BenchDatabaseException.Newer(description, unknown) : known.Except(applied).Any();
    }

    private static async Task MakeAsync(PostgresBench context, CancellationToken cancel)
    {
        if (await context.Database.CanConnectAsync(cancel))
        {
            return;
        }

        try
        {
            await context.GetService<IRelationalDatabaseCreator>().CreateAsync(cancel);
        }
        catch (PostgresException e) when (e.SqlState is PostgresErrorCodes.DuplicateDatabase or PostgresErrorCodes.UniqueViolation)
        {
            // Another start was first.
        }
    }
}
