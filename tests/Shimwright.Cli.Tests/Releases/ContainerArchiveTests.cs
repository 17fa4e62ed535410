using System.Formats.Tar;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Releases;

namespace Shimwright.Cli.Tests.Releases;

/// <summary>An image's archive that is the same for the same files, whenever it was made.</summary>
public sealed class ContainerArchiveTests : IDisposable
{
    private static readonly DateTimeOffset Moment = new(2026, 12, 1, 6, 0, 0, TimeSpan.Zero);

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-image-").FullName;

    [Fact]
    public void Repack_SameFilesMadeAtOtherTimes_IsTheSameImage()
    {
        string first = Made("first", 2024, "app/b.txt", "app/a.txt"), second = Made("second", 2025, "app/a.txt", "app/b.txt");
        Assert.NotEqual(File.ReadAllBytes(first), File.ReadAllBytes(second));
        ContainerArchive.Repack(first, Moment);
        ContainerArchive.Repack(second, Moment);
        Assert.Equal(File.ReadAllBytes(first), File.ReadAllBytes(second));
    }

    /// <summary>As the OCI image specification has it: a layer's diff id is the checksum of its files unpacked, a config goes by its own.</summary>
    [Fact]
    public void Repack_AnImage_KeepsItsBaseItsRightsAndItsChecksums()
    {
        string archive = Made("one", 2024, "app/b.txt", "app/a.txt");
        byte[] baseLayer = Entry(archive, "base/layer.tar");
        ContainerArchive.Repack(archive, Moment);
        JsonNode image = JsonNode.Parse(Entry(archive, "manifest.json"))![0]!;
        string[] layers = [.. image["Layers"]!.AsArray().Select(l => l!.GetValue<string>())];
        string name = image["Config"]!.GetValue<string>();
        byte[] written = Entry(archive, name);
        JsonNode config = JsonNode.Parse(written)!;
        Assert.Equal(name, Sum(written) + ".json");
        Assert.Equal("base/layer.tar", layers[0]);
        Assert.Equal(baseLayer, Entry(archive, layers[0]));
        byte[] packed = Entry(archive, layers[1]), files = Unpacked(packed);
        Assert.Equal($"{Sum(packed)}/layer.tar", layers[1]);
        Assert.Equal(["sha256:of-the-base", $"sha256:{Sum(files)}"], config["rootfs"]!["diff_ids"]!.AsArray().Select(d => d!.GetValue<string>()));
        Assert.Equal("2026-12-01T06:00:00Z", config["created"]!.GetValue<string>());
        Assert.Equal("serve", config["config"]!["Cmd"]![0]!.GetValue<string>());
        Assert.Equal(["shimwright:1.2.3"], image["RepoTags"]!.AsArray().Select(t => t!.GetValue<string>()));
        using TarReader tar = new(new MemoryStream(files));
        TarEntry folder = tar.GetNextEntry()!, a = tar.GetNextEntry(copyData: true)!, b = tar.GetNextEntry(copyData: true)!;
        Assert.Equal(("app", TarEntryType.Directory, 1654), (folder.Name, folder.EntryType, folder.Uid));
        Assert.Equal(("app/a.txt", 1654, 0, UnixFileMode.UserRead | UnixFileMode.UserExecute, Moment), (a.Name, a.Uid, a.Gid, a.Mode, a.ModificationTime));
        Assert.Equal("what app/b.txt says", new StreamReader(b.DataStream!).ReadToEnd());
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Made(string name, int year, params string[] files)
    {
        DateTimeOffset at = new(year, 1, 2, 3, 4, 5, TimeSpan.Zero);
        byte[] app = Tar(
        [
            new UstarTarEntry(TarEntryType.Directory, "app") { Uid = 1654, ModificationTime = at },
            .. files.Select(f => new UstarTarEntry(TarEntryType.RegularFile, f)
            {
                Uid = 1654,
                Mode = UnixFileMode.UserRead | UnixFileMode.UserExecute,
                ModificationTime = at,
                DataStream = new MemoryStream(Encoding.UTF8.GetBytes($"what {f} says")),
            }),
        ]);
        string config = $$$"""
            {"config":{"Cmd":["serve"]},"created":"{{{at:O}}}","rootfs":{"type":"layers","diff_ids":["sha256:of-the-base","sha256:{{{Sum(app)}}}"]},
             "history":[{"created_by":"somebody"},{"created":"{{{at:O}}}","created_by":"the SDK"}]}
            """;
        string manifest = """[{"Config":"config.json","RepoTags":["shimwright:1.2.3"],"Layers":["base/layer.tar","app/layer.tar"]}]""";
        string archive = Path.Combine(_folder, name + ".tar");
        File.WriteAllBytes(archive, Tar(
        [
            .. new[] { ("base/layer.tar", new byte[] { 1, 2, 3 }), ("app/layer.tar", Packed(app)), ("config.json", Encoding.UTF8.GetBytes(config)), ("manifest.json", Encoding.UTF8.GetBytes(manifest)) }
                .Select(p => new UstarTarEntry(TarEntryType.RegularFile, p.Item1) { ModificationTime = at, DataStream = new MemoryStream(p.Item2) }),
        ]));
        return archive;
    }

    private static byte[] Tar(IEnumerable<UstarTarEntry> entries)
    {
        using var to = new MemoryStream();
        using (var tar = new TarWriter(to, TarEntryFormat.Ustar, leaveOpen: true))
        {
            foreach (UstarTarEntry entry in entries)
            {
                tar.WriteEntry(entry);
            }
        }

        return to.ToArray();
    }

    private static byte[] Entry(string archive, string name)
    {
        using var tar = new TarReader(File.OpenRead(archive));
        while (tar.GetNextEntry() is { } entry)
        {
            if (entry.Name == name)
            {
                using var content = new MemoryStream();
                entry.DataStream!.CopyTo(content);
                return content.ToArray();
            }
        }

        throw new InvalidOperationException(name);
    }

    private static byte[] Packed(byte[] content)
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            gzip.Write(content);
        }

        return packed.ToArray();
    }

    private static byte[] Unpacked(byte[] packed)
    {
        using var content = new MemoryStream();
        using var gzip = new GZipStream(new MemoryStream(packed), CompressionMode.Decompress);
        gzip.CopyTo(content);
        return content.ToArray();
    }

    private static string Sum(byte[] content) => Convert.ToHexStringLower(SHA256.HashData(content));
}
