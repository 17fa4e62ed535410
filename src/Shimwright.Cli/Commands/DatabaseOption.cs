using System.CommandLine;
using Shimwright.Cli.Running;
using Shimwright.Storage;
using Shimwright.Storage.Database;

namespace Shimwright.Cli.Commands;

/// <summary>The option that says where a bench is kept, the same for every command that opens one.</summary>
internal static class DatabaseOption
{
    public static Option<string?> Create()
    {
        var database = new Option<string?>("--db")
        {
            Description = "Where the bench is kept: a SQLite file, or \"Host=...\" for a PostgreSQL server that several benches share. "
                + "Unless given, shimwright/bench.db in the user's data folder.",
            HelpName = "FILE|\"Host=...\"",
        };
        database.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && string.IsNullOrWhiteSpace(text))
            {
                result.AddError("--db: found nothing, allowed is a file or \"Host=...\"; leave --db out to use the default file.");
            }
        });
        return database;
    }

    /// <summary>Does something with the bench that was named, or with the usual one; what keeps it from being used is said.</summary>
    public static async Task<int> UseAsync(Terminal terminal, string? address, Func<BenchDatabase, Task<int>> work)
    {
        try
        {
            return await work(BenchDatabase.At(address ?? Path.Combine(BenchDatabase.DataFolder, "bench.db"), TimeProvider.System));
        }
        catch (BenchDatabaseException unusable)
        {
            terminal.Error.WriteLine($"shimwright: {unusable.Message}");
            return ExitCode.BadInput;
        }
    }
}
