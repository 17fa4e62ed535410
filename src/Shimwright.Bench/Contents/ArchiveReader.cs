using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Contents;

/// <summary>An archive as it was read.</summary>
/// <param name="Contents">The bench; null where anything is wrong.</param>
/// <param name="Problems">What is wrong.</param>
public sealed record ReadArchive(BenchContents? Contents, IReadOnlyList<JobProblem> Problems);

/// <summary>Reads one archive, within bounds: no more is unpacked than an honest archive of its size holds.</summary>
internal sealed class ArchiveReader(Stream from, IProgress<int>? progress)
{
    private const long Free = 1024 * 1024;

    private readonly List<JobProblem> _problems = [];
    private long _left = Math.Min(Limits.LargestArchive, Free + (from.Length * Limits.MostTimesPacked));
    private int _done;

    public ReadArchive Read()
    {
        try
        {
            using ZipArchive zip = new(from, ZipArchiveMode.Read, leaveOpen: true);
            return ManifestOf(zip) is { } manifest && Contents(zip, manifest)?.Counted() is { } contents && ContentRules.ProblemsOf(contents) is var wrong
                ? new(wrong.Count > 0 ? null : contents, FirstProblems.Of(wrong))
                : new(null, FirstProblems.Of(_problems));
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException or IOException or NotSupportedException)
        {
            return new(null, [new("archive", $"found a file that cannot be unpacked ({e.Message.TrimEnd('.')})", "name a whole archive that 'shimwright export' has written")]);
        }
    }

    private ArchiveManifest? ManifestOf(ZipArchive zip)
    {
        if (zip.GetEntry(BenchArchive.Manifest) is not { } entry)
        {
            return Wrong<ArchiveManifest>("archive", $"found no {BenchArchive.Manifest} in it", "name an archive that 'shimwright export' has written");
        }

        try
        {
            using Stream stream = Bounded(entry);
            ArchiveManifest? manifest = JsonSerializer.Deserialize(stream, ArchiveContext.Default.ArchiveManifest);
            return manifest is not { Format: BenchArchive.Format } ? Wrong<ArchiveManifest>(BenchArchive.Manifest, $"found the format \"{manifest?.Format}\"", $"allowed is \"{BenchArchive.Format}\"")
                : manifest.Edition is < 1 or > BenchArchive.Edition ? Wrong<ArchiveManifest>(BenchArchive.Manifest, FormattableString.Invariant($"found edition {manifest.Edition}"), "a newer Shimwright has written it: use that one")
                : manifest.Files.Any(f => f is null) ? Wrong<ArchiveManifest>(BenchArchive.Manifest, "found a file without a name", "name an archive that 'shimwright export' has written")
                : manifest;
        }
        catch (JsonException e)
        {
            return Wrong<ArchiveManifest>(BenchArchive.Manifest, $"found no manifest ({e.Message})", "name an archive that 'shimwright export' has written");
        }
    }

    private BenchContents? Contents(ZipArchive zip, ArchiveManifest manifest)
    {
        BenchContents contents = new()
        {
            Cards = Rows(ArchiveKinds.Cards),
            Engines = Rows(ArchiveKinds.Engines),
            Jobs = Rows(ArchiveKinds.Jobs),
            Facts = Rows(ArchiveKinds.Facts),
            Promises = Promises(Rows(ArchiveKinds.Promises)),
            Ledger = Rows(ArchiveKinds.Ledger),
            Settings = Rows(ArchiveKinds.Settings),
            Feels = Rows(ArchiveKinds.Feels),
            Counts = Rows(ArchiveKinds.Counts),
            Pictures = Rows(ArchiveKinds.Pictures),
        };
        return _problems.Count > 0 ? null : contents;

        IReadOnlyList<T> Rows<T>(ArchiveKind<T> kind) => manifest.Edition < kind.Since ? [] : RowsOf(zip, manifest, kind.File, kind.Row);
    }

    private List<T> RowsOf<T>(ZipArchive zip, ArchiveManifest manifest, string name, JsonTypeInfo<T> type)
    {
        List<T> rows = [];
        ArchiveFile[] told = [.. manifest.Files.Where(f => f.Name == name)];
        if (told.Length != 1 || zip.GetEntry(name) is not { } entry)
        {
            _problems.Add(new(name, "found no such file, or more than one in the manifest", "take another copy of the archive"));
            return rows;
        }

        using Stream stream = Bounded(entry);
        using var sum = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        int number = 0;
        foreach (ReadOnlyMemory<byte> line in new LinesOfBytes(stream, Limits.LongestArchiveLine, sum).All())
        {
            number++;
            progress?.Report(++_done);
            if (FirstProblems.AreEnough(_problems))
            {
                return rows;
            }

            try
            {
                rows.Add(JsonSerializer.Deserialize(line.Span, type) ?? throw new JsonException("null"));
            }
            catch (Exception e) when (e is JsonException or FormatException or ArgumentException or InvalidOperationException)
            {
                _problems.Add(new(FormattableString.Invariant($"{name}, line {number}"), $"found what is no such row ({e.Message})", "take another copy of the archive"));
            }
        }

        if (number != told[0].Rows || !string.Equals(Convert.ToHexStringLower(sum.GetHashAndReset()), told[0].Sha256, StringComparison.OrdinalIgnoreCase))
        {
            _problems.Add(new(name, FormattableString.Invariant($"found {number} lines that are not the {told[0].Rows} of the manifest, letter by letter"), "the archive is damaged or was changed: take another copy"));
        }

        return rows;
    }

    private static List<KeptPromises> Promises(IReadOnlyList<ArchivePromise> rows) =>
    [
        .. rows.GroupBy(r => r.Job).Select(job => ArchivePromise.Together(job.Key, job)),
    ];

    private UnpackedStream Bounded(ZipArchiveEntry entry) => new(entry.Open(), read =>
    {
        _left -= read;
        if (_left < 0)
        {
            throw new InvalidDataException("it holds far more than a bench of its size does");
        }
    });

    private T? Wrong<T>(string path, string found, string allowed)
        where T : class
    {
        _problems.Add(new(path, found, allowed));
        return null;
    }
}
