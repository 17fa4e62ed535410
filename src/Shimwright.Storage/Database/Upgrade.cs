using Microsoft.EntityFrameworkCore;

namespace Shimwright.Storage.Database;

/// <summary>Brings a database up to the state that this program knows.</summary>
internal static class Upgrade
{
    /// <summary>Migrates where anything is left to do; a database of a newer program is refused.</summary>
    public static async Task RunAsync(BenchContext context, string description, CancellationToken cancel)
    {
        if (await IsDueAsync(context, description, cancel))
        {
            await context.Database.MigrateAsync(cancel);
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
}
