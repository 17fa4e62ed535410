using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Copies;
using Shimwright.Bench.Settings;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Copies;

/// <summary>The copies of a database: of a SQLite file a file like it, of a server an archive.</summary>
internal sealed class BenchCopies(Func<BenchContext> open, (string Description, string Id, string? File) database, ISettings settings, TimeProvider time) : ICopies
{
    private const string Start = "bench-", Stamp = "yyyyMMdd-HHmmss";

    // One copy at a time; a task that ends is the turn of the next.
    private Task _last = Task.CompletedTask;
    private string? _failure;

    /// <summary>Where copies are kept unless the settings say otherwise.</summary>
    public string UsualFolder => database.File is { } file ? file + ".copies" : Path.Combine(UserFolder.Data, "copies", database.Id);

    private string Ending => database.File is null ? ".zip" : ".db";

    /// <inheritdoc/>
    public async Task<BenchContents> ContentsAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = open();
        return await ContentsStore.ReadAsync(context, cancel);
    }

    /// <inheritdoc/>
    public async Task<bool> TakeInAsync(BenchContents contents, IProgress<int>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(contents);
        await using BenchContext context = open();
        return await ContentsStore.WriteAsync(context, contents, progress, cancel);
    }

    /// <inheritdoc/>
    public async Task<CopiesState> StateAsync(CancellationToken cancel = default)
    {
        string folder = await FolderAsync(cancel);
        return new(folder, Kept(folder), _failure);
    }

    /// <inheritdoc/>
    public async Task<MadeCopy> MakeAsync(CancellationToken cancel = default)
    {
        TaskCompletionSource mine = new(TaskCreationOptions.RunContinuationsAsynchronously);
        await Interlocked.Exchange(ref _last, mine.Task);
        try
        {
            string folder = await FolderAsync(cancel);
            Directory.CreateDirectory(folder);
            string name = $"{Start}{time.GetUtcNow().UtcDateTime.ToString(Stamp, CultureInfo.InvariantCulture)}{Ending}";
            await BackUpAsync(Path.Combine(folder, name), replaces: true, null, cancel);
            IReadOnlyList<KeptCopy> kept = Kept(folder);
            foreach (KeptCopy old in kept.Skip((await settings.CurrentAsync(cancel)).Settings.CopiesKept))
            {
                File.Delete(Path.Combine(folder, old.Name));
            }

            _failure = null;
            return new(kept.First(c => c.Name == name), null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or BenchDatabaseException or DbUpdateException or System.Data.Common.DbException)
        {
            _failure = e.Message;
            return new(null, e.Message);
        }
        finally
        {
            mine.SetResult();
        }
    }

    /// <summary>Makes a copy, reads it again, and only then gives it its name.</summary>
    public async Task<SoundReport> BackUpAsync(string file, bool replaces, IProgress<int>? progress, CancellationToken cancel)
    {
        if (database.File is not { } bench)
        {
            return SoundReport.Of(await ExportAsync(file, replaces, progress, cancel));
        }

        return await InPlaceAsync(file, replaces, async part =>
        {
            await SqliteCopy.MakeAsync(bench, part, cancel);
            await using BenchContext copy = Contexts.OnFile(part, isPooled: false)();
            SoundReport report = await Soundness.WholeAsync(copy, part, progress, cancel);
            return report.IsSound ? report : throw BenchDatabaseException.Damaged(bench, report.InWords(3));
        });
    }

    /// <summary>Writes an archive, reads it again, and only then gives it its name.</summary>
    public Task<BenchContents> ExportAsync(string file, bool replaces, IProgress<int>? progress, CancellationToken cancel) => InPlaceAsync(file, replaces, async part =>
    {
        BenchContents contents = await ContentsAsync(cancel);
        SqliteFile.MakeForItsOwner(part);
        await using FileStream stream = new(part, FileMode.Create, FileAccess.ReadWrite);
        BenchArchive.Write(contents, time.GetUtcNow().UtcDateTime, stream, progress);
        stream.Flush(flushToDisk: true);
        stream.Position = 0;
        return BenchArchive.Read(stream, progress) is { Contents: null } read ? throw BenchDatabaseException.Refused(database.Description, read.Problems) : contents;
    });

    /// <summary>Takes an archive in.</summary>
    public async Task<BenchContents> ImportAsync(string file, IProgress<int>? progress, CancellationToken cancel)
    {
        BenchContents contents = Archives.Read(file, progress);
        return await TakeInAsync(contents, progress, cancel) ? contents : throw BenchDatabaseException.NotEmpty(database.Description);
    }

    private static async Task<T> InPlaceAsync<T>(string file, bool replaces, Func<string, Task<T>> make)
    {
        if (!replaces && File.Exists(file))
        {
            throw BenchDatabaseException.IsThere(file);
        }

        string part = $"{file}.part";
        try
        {
            if (Directory.Exists(file))
            {
                throw new IOException("this is a folder");
            }

            SqliteCopy.Delete(part);
            T made = await make(part);
            File.Move(part, file, overwrite: replaces);
            return made;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or SqliteException { SqliteErrorCode: 8 or 10 or 13 or 14 })
        {
            throw BenchDatabaseException.NotWritten(file, e);
        }
        finally
        {
            SqliteCopy.Delete(part);
        }
    }

    private async Task<string> FolderAsync(CancellationToken cancel) =>
        (await settings.CurrentAsync(cancel)).Settings.CopyFolder is { Length: > 0 } stated ? stated : UsualFolder;

    private List<KeptCopy> Kept(string folder) => !Directory.Exists(folder) ? [] :
    [
        .. new DirectoryInfo(folder).EnumerateFiles($"{Start}*{Ending}")
            .Select(f => DateTime.TryParseExact(
                f.Name[Start.Length..^Ending.Length], Stamp, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out DateTime at)
                ? new KeptCopy(f.Name, at, f.Length) : null)
            .OfType<KeptCopy>().OrderByDescending(c => c.At),
    ];
}
