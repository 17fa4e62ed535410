using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;

namespace Shimwright.Bench.Contents;

/// <summary>
/// A whole bench as one open file: a zip with a file of JSON lines for every kind of row, and a manifest with counts and checksums.
/// The same bench makes the same rows, wherever it is kept.
/// </summary>
public static class BenchArchive
{
    /// <summary>What the format is called.</summary>
    public const string Format = "shimwright-bench";

    /// <summary>The edition that is written; older ones are read.</summary>
    public const int Edition = 2;

    internal const string Manifest = "manifest.json";

    private static readonly byte[] NewLine = [(byte)'\n'];

    /// <summary>Writes an archive.</summary>
    /// <param name="contents">The bench.</param>
    /// <param name="madeAt">The time, UTC.</param>
    /// <param name="to">Where to; it is left open.</param>
    /// <param name="progress">Told how many rows are written, or null.</param>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static void Write(BenchContents contents, DateTime madeAt, Stream to, IProgress<int>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(contents);
        using ZipArchive zip = new(to, ZipArchiveMode.Create, leaveOpen: true);
        int done = 0;
        List<ArchiveFile> files =
        [
            File(ArchiveKinds.Cards, contents.Cards.OrderBy(c => c.Id)),
            File(ArchiveKinds.Engines, contents.Engines.OrderBy(e => e.Id)),
            File(ArchiveKinds.Jobs, contents.Jobs.OrderBy(j => j.Id)),
            File(ArchiveKinds.Facts, contents.Facts.OrderBy(f => f.Job).ThenBy(f => f.Number)),
            File(ArchiveKinds.Promises, Promises(contents)),
            File(ArchiveKinds.Ledger, contents.Ledger.OrderBy(l => l.Number)),
            File(ArchiveKinds.Settings, contents.Settings.OrderBy(s => s.Version)),
            File(ArchiveKinds.Feels, contents.Feels.OrderBy(f => f.Person).ThenBy(f => f.Number)),
            File(ArchiveKinds.Counts, contents.Counts.OrderBy(c => c.Name, StringComparer.Ordinal)),
            File(ArchiveKinds.Pictures, contents.Pictures.OrderBy(p => p.Id)),
        ];
        using Stream manifest = Entry(Manifest).Open();
        JsonSerializer.Serialize(manifest, new(Format, Edition, madeAt, files), ArchiveContext.Default.ArchiveManifest);

        ZipArchiveEntry Entry(string name)
        {
            ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Optimal);
            // So that the same bench makes the same file.
            entry.LastWriteTime = new DateTimeOffset(madeAt.Year < 1980 ? new DateTime(1980, 1, 1, 0, 0, 0, DateTimeKind.Utc) : madeAt);
            return entry;
        }

        ArchiveFile File<T>(ArchiveKind<T> kind, IEnumerable<T> rows)
        {
            int count = 0;
            using var sum = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            using Stream file = Entry(kind.File).Open();
            foreach (T row in rows)
            {
                byte[] line = [.. JsonSerializer.SerializeToUtf8Bytes(row, kind.Row), .. NewLine];
                sum.AppendData(line);
                file.Write(line);
                count++;
                progress?.Report(++done);
            }

            return new(kind.File, count, Convert.ToHexStringLower(sum.GetHashAndReset()));
        }
    }

    /// <summary>Reads an archive that was made here or elsewhere. Nothing in it is trusted: what is wrong is said, and nothing is half read.</summary>
    /// <param name="from">The file; it can be searched.</param>
    /// <param name="progress">Told how many rows are read, or null.</param>
    /// <returns>The bench, or the problems.</returns>
    public static ReadArchive Read(Stream from, IProgress<int>? progress = null) => new ArchiveReader(from, progress).Read();

    private static IEnumerable<ArchivePromise> Promises(BenchContents contents) => contents.Promises.SelectMany(ArchivePromise.Of)
        .OrderBy(p => p.Job).ThenBy(p => p.Diameter).ThenBy(p => p.Thickness).ThenBy(p => p.By);
}
