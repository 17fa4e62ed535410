using System.Formats.Tar;
using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;

namespace Shimwright.Releases;

/// <summary>
/// The archive of a container image, as "docker save" has it, made anew: what makes it dates every file and the image itself to when it was made. The layers of
/// the base stay as they are, so that they have the checksums that others know them by.
/// </summary>
internal static class ContainerArchive
{
    private const string Manifest = "manifest.json";

    private const UnixFileMode Readable = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.OtherRead;

    /// <summary>Makes an archive anew.</summary>
    /// <param name="archive">The archive, a .tar.</param>
    /// <param name="moment">The date of every file of the program, and of the image.</param>
    public static void Repack(string archive, DateTimeOffset moment)
    {
        Dictionary<string, byte[]> parts = Read(archive);
        JsonArray images = JsonNode.Parse(parts[Manifest])!.AsArray();
        JsonNode image = images.Single()!;
        JsonNode config = JsonNode.Parse(parts[image["Config"]!.GetValue<string>()])!;
        JsonArray layers = image["Layers"]!.AsArray(), sums = config["rootfs"]!["diff_ids"]!.AsArray();
        byte[] files = Dated(parts[layers[^1]!.GetValue<string>()], moment), packed = Packed(files);
        sums[^1] = $"sha256:{Sum(files)}";
        layers[^1] = $"{Sum(packed)}/layer.tar";
        parts[layers[^1]!.GetValue<string>()] = packed;
        string at = moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
        foreach (JsonObject made in config["history"]!.AsArray().Append(config).OfType<JsonObject>().Where(o => o.ContainsKey("created")))
        {
            made["created"] = at;
        }

        byte[] written = Encoding.UTF8.GetBytes(config.ToJsonString());
        image["Config"] = $"{Sum(written)}.json";
        parts[image["Config"]!.GetValue<string>()] = written;
        parts[Manifest] = Encoding.UTF8.GetBytes(images.ToJsonString());
        using var tar = new TarWriter(File.Create(archive), TarEntryFormat.Ustar);
        foreach (string name in (string[])[.. layers.Select(l => l!.GetValue<string>()), image["Config"]!.GetValue<string>(), Manifest])
        {
            using var content = new MemoryStream(parts[name]);
            tar.WriteEntry(new UstarTarEntry(TarEntryType.RegularFile, name) { DataStream = content, Mode = Readable, ModificationTime = moment });
        }
    }

    private static Dictionary<string, byte[]> Read(string archive)
    {
        Dictionary<string, byte[]> parts = new(StringComparer.Ordinal);
        using var tar = new TarReader(File.OpenRead(archive));
        while (tar.GetNextEntry() is { } entry)
        {
            parts.Add(entry.Name, Content(entry));
        }

        return parts;
    }

    /// <summary>The files of a layer in the order of their names, each with this date.</summary>
    private static byte[] Dated(byte[] layer, DateTimeOffset moment)
    {
        List<UstarTarEntry> entries = [];
        using (var packed = new GZipStream(new MemoryStream(layer), CompressionMode.Decompress))
        using (var from = new TarReader(packed))
        {
            while (from.GetNextEntry() is { } entry)
            {
                var dated = new UstarTarEntry(entry.EntryType is TarEntryType.V7RegularFile ? TarEntryType.RegularFile : entry.EntryType, entry.Name)
                {
                    Mode = entry.Mode,
                    Uid = entry.Uid,
                    Gid = entry.Gid,
                    ModificationTime = moment,
                };
                if (entry.EntryType is TarEntryType.SymbolicLink or TarEntryType.HardLink)
                {
                    dated.LinkName = entry.LinkName;
                }
                else if (entry.DataStream is not null)
                {
                    dated.DataStream = new MemoryStream(Archives.Dated(entry.Name, Content(entry), moment));
                }

                entries.Add(dated);
            }
        }

        using var to = new MemoryStream();
        using (var tar = new TarWriter(to, TarEntryFormat.Ustar, leaveOpen: true))
        {
            foreach (UstarTarEntry entry in entries.OrderBy(e => e.Name, StringComparer.Ordinal))
            {
                tar.WriteEntry(entry);
            }
        }

        return to.ToArray();
    }

    /// <summary>A layer, packed as it lies in an archive.</summary>
    /// <param name="files">Its files, a tar.</param>
    public static byte[] Packed(byte[] files)
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            gzip.Write(files);
        }

        return packed.ToArray();
    }

    private static byte[] Content(TarEntry entry)
    {
        using var content = new MemoryStream();
        entry.DataStream?.CopyTo(content);
        return content.ToArray();
    }

    private static string Sum(byte[] content) => Convert.ToHexStringLower(SHA256.HashData(content));
}
