using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Contents;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Copies;

/// <summary>A bench that was put back.</summary>
/// <param name="Report">What is in it.</param>
/// <param name="Aside">Where the bench lies as it was before, or null where there was none.</param>
public sealed record RestoredBench(SoundReport Report, string? Aside);

/// <summary>Puts a copy in the place of a bench: the copy is made ready beside it and looked over, the bench is set aside, and then they change places at once.</summary>
internal sealed class Restoring(Func<BenchContext> open, string? file, string description, string copies, TimeProvider time)
{
    private static readonly string TakeAllAway = string.Concat(
        new[] { "shim_promises", "shim_moves", "pictures", "facts", "forecasts", "jobs", "engines", "card_rates", "cards", "settings", "feels", "removed_jobs", "changes", "heard_deeds" }
            .Select(table => $"ALTER TABLE {table} DISABLE TRIGGER USER; DELETE FROM {table}; ALTER TABLE {table} ENABLE TRIGGER USER; "));

    public async Task<RestoredBench> RunAsync(string from, IProgress<int>? progress, CancellationToken cancel)
    {
        if (!File.Exists(from))
        {
            throw BenchDatabaseException.NoFile(from);
        }

        if (file is not { } bench)
        {
            return await OnServerAsync(from, progress, cancel);
        }

        string part = bench + ".part";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(bench)!);
            SqliteCopy.Delete(part);
            SoundReport report = await ReadyAsync(from, part, progress, cancel);
            return new(report, await ChangePlacesAsync(bench, part, cancel));
        }
        finally
        {
            SqliteCopy.Delete(part);
        }
    }

    /// <summary>Makes the new bench ready in a file of its own: whole, of this program's state, every row looked at.</summary>
    private static async Task<SoundReport> ReadyAsync(string from, string part, IProgress<int>? progress, CancellationToken cancel)
    {
        Func<BenchContext> open = Contexts.OnFile(part, isPooled: false);
        if (Archives.IsOne(from))
        {
            BenchContents contents = Archives.Read(from, progress);
            SqliteFile.MakeForItsOwner(part);
            await using BenchContext made = open();
            await made.Database.MigrateAsync(cancel);
            await ContentsStore.WriteAsync(made, contents, progress, cancel);
        }
        else
        {
            await CopyAsync(from, part, cancel);
        }

        await using BenchContext context = open();
        await Upgrade.RunAsync(context, from, cancel);
        await SumFill.RunAsync(context, cancel);
        await StepModel.RenewAsync(context, cancel);
        SoundReport report = await Soundness.WholeAsync(context, part, progress, cancel);
        return report.IsSound ? report : throw BenchDatabaseException.DamagedCopy(from, report.InWords(3));
    }

    private static async Task CopyAsync(string from, string part, CancellationToken cancel)
    {
        try
        {
            await SqliteCopy.MakeAsync(from, part, cancel);
        }
        catch (SqliteException e)
        {
            throw e.SqliteErrorCode is 11 or 26 ? BenchDatabaseException.DamagedCopy(from, e.Message) : BenchDatabaseException.OfFile(from, e);
        }

        if (await FileOrder.DamageAsync(part, cancel) is { Count: > 0 } damage)
        {
            throw BenchDatabaseException.DamagedCopy(from, damage[0]);
        }

        if (!await new SqliteFile(part, TimeProvider.System, from).IsUsedAsync(cancel))
        {
            throw BenchDatabaseException.NoBench(from);
        }
    }

    private async Task<string?> ChangePlacesAsync(string bench, string part, CancellationToken cancel)
    {
        await using (SqliteConnection whole = await SqliteFile.OpenAsync(part, SqliteOpenMode.ReadWrite, cancel))
        {
            await SqliteFile.RunAsync(whole, "PRAGMA journal_mode=DELETE", cancel);
        }

        if (!File.Exists(bench))
        {
            SqliteCopy.Delete(bench);
            File.Move(part, bench);
            return null;
        }

        await TakeAloneAsync(bench, cancel);
        string aside = new SqliteFile(bench, time).NameAside();
        foreach (string beside in SqliteFile.Beside.Where(b => File.Exists(bench + b)))
        {
            // What could not be put into the damaged file goes with it.
            File.Move(bench + beside, aside + beside);
        }

        File.Replace(part, bench, aside);
        return aside;
    }

    /// <summary>Puts the whole of the present bench into its one file, which nobody can who is not alone with it.</summary>
    private static async Task TakeAloneAsync(string bench, CancellationToken cancel)
    {
        try
        {
            await using SqliteConnection connection = await SqliteFile.OpenAsync(bench, SqliteOpenMode.ReadWrite, cancel);
            await using SqliteCommand command = connection.CreateCommand();
            command.CommandText = "PRAGMA busy_timeout=0; PRAGMA journal_mode=DELETE";
            command.CommandTimeout = 1;
            await using SqliteDataReader said = await command.ExecuteReaderAsync(cancel);
            do
            {
                // Where another has it open, the answer is what the mode was.
                while (await said.ReadAsync(cancel))
                {
                    if (said.GetValue(0) is "wal")
                    {
                        throw BenchDatabaseException.InUse(bench);
                    }
                }
            }
            while (await said.NextResultAsync(cancel));
        }
        catch (SqliteException e) when (e.SqliteErrorCode is 5 or 6)
        {
            throw BenchDatabaseException.InUse(bench);
        }
        catch (SqliteException e) when (e.SqliteErrorCode is 11 or 26)
        {
            // Too damaged to be opened: it is set aside as it is.
        }
    }

    private async Task<RestoredBench> OnServerAsync(string from, IProgress<int>? progress, CancellationToken cancel)
    {
        BenchContents contents = Archives.IsOne(from) ? Archives.Read(from, progress) : await OfCopyAsync(from, progress, cancel);
        await using BenchContext context = open();
        await Upgrade.RunAloneAsync((PostgresBench)context, description, cancel);
        Directory.CreateDirectory(copies);
        string aside = new SqliteFile(Path.Combine(copies, "bench.zip"), time).NameAside();
        return await context.InTransactionAsync<RestoredBench>(
            async transaction =>
            {
                // Nobody writes from here on: what is set aside is what is taken away. Jobs before the drawer, as whoever adds to a job takes them.
                await context.Database.ExecuteSqlRawAsync(
                    "LOCK TABLE counts, jobs, drawer, facts, pictures, cards, engines, shim_moves, shim_promises, settings, feels, forecasts, card_rates IN EXCLUSIVE MODE", cancel);
                BenchContents before = await ContentsStore.AllAsync(context, cancel);
                if (!before.IsEmpty)
                {
                    SqliteFile.MakeForItsOwner(aside);
                    await using FileStream stream = new(aside, FileMode.Create, FileAccess.ReadWrite);
                    BenchArchive.Write(before, time.GetUtcNow().UtcDateTime, stream);
                    stream.Flush(flushToDisk: true);
                }

                // The triggers that keep facts from being taken away are off inside this transaction only.
                await context.Database.ExecuteSqlRawAsync(TakeAllAway, cancel);
                await ContentsStore.FillAsync(context, contents, progress, cancel);
                await StepModel.RenewAsync(context, cancel);
                await transaction.CommitAsync(cancel);
                return new(SoundReport.Of(contents), before.IsEmpty ? null : aside);
            },
            cancel);
    }

    private static async Task<BenchContents> OfCopyAsync(string from, IProgress<int>? progress, CancellationToken cancel)
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-restore-").FullName;
        try
        {
            string part = Path.Combine(folder, "bench.db");
            await ReadyAsync(from, part, progress, cancel);
            await using BenchContext context = Contexts.OnFile(part, isPooled: false)();
            return await ContentsStore.ReadAsync(context, cancel);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
