using System.Formats.Tar;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;

namespace Shimwright.Releases;

/// <summary>Archives that are the same, byte for byte, for the same files: names in order, one date, no owner.</summary>
internal static partial class Archives
{
    private const UnixFileMode Readable = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.OtherRead;
    private const UnixFileMode Executable = Readable | UnixFileMode.UserExecute | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute;

    /// <summary>Packs a folder; in the archive everything is below a folder of its name.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="archive">The archive; its ending says which kind.</param>
    /// <param name="moment">The date of every file.</param>
    public static void Pack(string folder, string archive, DateTimeOffset moment)
    {
        string root = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));
        (string File, string Name)[] files = [.. Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .Select(f => (f, root + "/" + Path.GetRelativePath(folder, f).Replace('\\', '/'))).OrderBy(f => f.Item2, StringComparer.Ordinal)];
        if (archive.EndsWith(".zip", StringComparison.Ordinal))
        {
            using var zip = new ZipArchive(File.Create(archive), ZipArchiveMode.Create);
            foreach ((string file, string name) in files)
            {
                Add(zip, name, Content(file, moment), moment);
            }

            return;
        }

        // The runtime writes a header of gzip without a name or a date.
        using var packed = new GZipStream(File.Create(archive), CompressionLevel.SmallestSize);
        using var tar = new TarWriter(packed, TarEntryFormat.Ustar);
        foreach ((string file, string name) in files)
        {
            using var content = new MemoryStream(Content(file, moment));
            tar.WriteEntry(new UstarTarEntry(TarEntryType.RegularFile, name)
            {
                DataStream = content,
                Mode = Path.GetFileName(file) == "shimwright" ? Executable : Readable,
                ModificationTime = moment,
                UserName = "root",
                GroupName = "root",
            });
        }
    }

    /// <summary>Makes a package of NuGet anew: what packs it dates every file to when it was packed.</summary>
    /// <param name="package">The package.</param>
    /// <param name="moment">The date of every file.</param>
    public static void Repack(string package, DateTimeOffset moment)
    {
        (string Name, byte[] Content)[] entries;
        using (ZipArchive old = ZipFile.OpenRead(package))
        {
            entries = [.. old.Entries.Select(e => (e.FullName, Dated(e.FullName, Read(e), moment))).OrderBy(e => e.FullName, StringComparer.Ordinal)];
        }

        using var zip = new ZipArchive(File.Create(package), ZipArchiveMode.Create);
        foreach ((string name, byte[] content) in entries)
        {
            Add(zip, name, content, moment);
        }
    }

    private static byte[] Content(string file, DateTimeOffset moment) => Dated(file, File.ReadAllBytes(file), moment);

    /// <summary>The list of what the server hands out says of each file when it was made: that is the release's date, too.</summary>
    public static byte[] Dated(string name, byte[] content, DateTimeOffset moment) => name.EndsWith(".staticwebassets.endpoints.json", StringComparison.Ordinal)
        ? Encoding.UTF8.GetBytes(LastModified().Replace(Encoding.UTF8.GetString(content), "${before}" + moment.ToString("R", CultureInfo.InvariantCulture)))
        : content;

    [GeneratedRegex("""(?<before>"Name":\s*"Last-Modified",\s*"Value":\s*")[^"]*""")]
    private static partial Regex LastModified();

    private static void Add(ZipArchive zip, string name, byte[] content, DateTimeOffset moment)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.SmallestSize);
        // The date in a zip has no zone: that of UTC, wherever it is packed. Its bits of Unix are those of a file that anybody reads.
        entry.LastWriteTime = moment.ToUniversalTime();
        entry.ExternalAttributes = (int)(0x8000 | (uint)Readable) << 16;
        using Stream target = entry.Open();
        target.Write(content);
    }

    private static byte[] Read(ZipArchiveEntry entry)
    {
        using Stream stream = entry.Open();
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        return copy.ToArray();
    }
}
