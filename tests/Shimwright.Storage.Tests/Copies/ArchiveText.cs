using System.IO.Compression;

namespace Shimwright.Storage.Tests.Copies;

/// <summary>An archive as text.</summary>
internal static class ArchiveText
{
    /// <summary>Its rows, each with the file that it stands in; without the manifest, which says when it was made.</summary>
    public static IReadOnlyList<string> LinesOf(Stream archive)
    {
        using ZipArchive zip = new(archive, ZipArchiveMode.Read, leaveOpen: true);
        return [.. zip.Entries.Where(e => e.Name.EndsWith(".jsonl", StringComparison.Ordinal)).SelectMany(e =>
        {
            using StreamReader reader = new(e.Open());
            return reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => $"{e.Name} {line}").ToArray();
        })];
    }

    public static IReadOnlyList<string> LinesOf(string file)
    {
        using FileStream stream = File.OpenRead(file);
        return LinesOf(stream);
    }
}
