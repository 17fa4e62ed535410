using Microsoft.Data.Sqlite;
using Shimwright.Bench.Contents;
using Shimwright.Storage.Copies;
using Shimwright.Storage.Database;

namespace Shimwright.Storage;

/// <content>What is done with the whole of a bench: held while it is served, looked over, copied, put back, carried away.</content>
public sealed partial class BenchDatabase
{
    /// <summary>Holds the file, so that nobody puts another in its place while it is served, and every save is looked after.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What to dispose when it is served no more; then all that was written is in the one file.</returns>
    public async Task<IAsyncDisposable> HoldAsync(CancellationToken cancel = default)
    {
        if (_keeper is not null)
        {
            await _keeper.HoldAsync(cancel);
        }

        return new Served(this);
    }

    /// <summary>Whether nobody has entered anything yet.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether it is so.</returns>
    public async Task<bool> IsEmptyAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await ContentsStore.IsEmptyAsync(context, cancel);
    }

    /// <summary>Puts what lies in the write-ahead log into the file, where nobody is at work; a copy of the file alone is then whole.</summary>
    /// <param name="cancel">Stops it.</param>
    public async Task TidyAsync(CancellationToken cancel = default)
    {
        if (File is not null && System.IO.File.Exists(File))
        {
            await using SqliteConnection connection = await SqliteFile.OpenAsync(File, SqliteOpenMode.ReadWrite, cancel);
            await SqliteFile.RunAsync(connection, "PRAGMA busy_timeout=0; PRAGMA wal_checkpoint(TRUNCATE)", cancel);
        }
    }

    /// <summary>Copies the whole bench into a file while it is in use: a SQLite file, or an archive where the bench is on a server.</summary>
    /// <param name="file">The file.</param>
    /// <param name="replaces">Whether a file of that name may be replaced.</param>
    /// <param name="progress">Told how many rows were checked, or null.</param>
    /// <param name="cancel">Stops it; then there is no copy.</param>
    /// <returns>What is in the copy, which was read again.</returns>
    /// <exception cref="BenchDatabaseException">There is no copy; the message says why.</exception>
    public Task<SoundReport> BackUpAsync(string file, bool replaces, IProgress<int>? progress = null, CancellationToken cancel = default) =>
        SayingWhyAsync(() => _copies.BackUpAsync(Path.GetFullPath(file), replaces, progress, cancel));

    /// <summary>Writes the whole bench as an archive.</summary>
    /// <inheritdoc cref="BackUpAsync"/>
    public Task<BenchContents> ExportAsync(string file, bool replaces, IProgress<int>? progress = null, CancellationToken cancel = default) =>
        SayingWhyAsync(() => _copies.ExportAsync(Path.GetFullPath(file), replaces, progress, cancel));

    /// <summary>Takes an archive in, where the bench is empty.</summary>
    /// <param name="file">The archive.</param>
    /// <param name="progress">Told how many rows were read and written, or null.</param>
    /// <param name="cancel">Stops it; then nothing has changed.</param>
    /// <returns>What was taken in.</returns>
    /// <exception cref="BenchDatabaseException">Nothing has changed; the message says why.</exception>
    public Task<BenchContents> ImportAsync(string file, IProgress<int>? progress = null, CancellationToken cancel = default) =>
        SayingWhyAsync(() => _copies.ImportAsync(Path.GetFullPath(file), progress, cancel));

    /// <summary>Puts a copy or an archive in the place of the bench, which is set aside first.</summary>
    /// <param name="from">The copy.</param>
    /// <param name="progress">Told how many rows were looked at, or null.</param>
    /// <param name="cancel">Stops it; then nothing has changed.</param>
    /// <returns>What is in the bench now, and where it lies as it was before, if there was one.</returns>
    /// <exception cref="BenchDatabaseException">Nothing has changed; the message says why.</exception>
    public Task<RestoredBench> RestoreAsync(string from, IProgress<int>? progress = null, CancellationToken cancel = default) =>
        SayingWhyAsync(() => new Restoring(_open, File, Description, _copies.UsualFolder, _time).RunAsync(Path.GetFullPath(from), progress, cancel));

    /// <summary>Looks the whole bench over.</summary>
    /// <param name="progress">Told how many rows were looked at, or null.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What was found.</returns>
    /// <exception cref="BenchDatabaseException">It cannot be read at all; the message says why.</exception>
    public Task<SoundReport> CheckAsync(IProgress<int>? progress = null, CancellationToken cancel = default) => SayingWhyAsync(async () =>
    {
        await MustBeOfThisProgramAsync(cancel);
        await using BenchContext context = _open();
        return await Soundness.WholeAsync(context, File, progress, cancel);
    });

    /// <summary>A check changes nothing, and so can look only at tables of this program.</summary>
    private async Task MustBeOfThisProgramAsync(CancellationToken cancel)
    {
        if (File is not null && !System.IO.File.Exists(File))
        {
            throw BenchDatabaseException.NotHere(File);
        }

        if (File is not null && !await new SqliteFile(File, _time).IsUsedAsync(cancel))
        {
            throw BenchDatabaseException.NoBench(File);
        }

        await using BenchContext context = _open();
        if (await Upgrade.IsDueAsync(context, Description, cancel))
        {
            throw BenchDatabaseException.Older(Description);
        }
    }

    private sealed class Served(BenchDatabase database) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            database._keeper?.Dispose();
            if (database.File is not null)
            {
                SqliteConnection.ClearAllPools();
                await database.TidyAsync();
            }
        }
    }
}
