using System.Formats.Tar;
using System.Globalization;
using System.IO.Compression;
using System.Text.Json.Nodes;
using Shimwright.Releases;
using Shimwright.Testing.Served;

namespace Shimwright.Cli.Tests.Releases;

/// <summary>What the helper of eng/release writes: archives, notices, the bill of materials.</summary>
public sealed class ReleaseFilesTests : IDisposable
{
    private static readonly DateTimeOffset Moment = DateTimeOffset.FromUnixTimeSeconds(1_790_000_001);

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-files-").FullName;

    /// <summary>The packages of the program, as the build that made these tests has them, without a runtime.</summary>
    private static IReadOnlyList<Shipped> Packages => Shipped.Of([$"{Shipped.Image}=" + Path.Combine(Repository.Root, "artifacts", "obj", "Shimwright.Cli", "project.assets.json")]);

    [Theory]
    [InlineData("bench.tar.gz")]
    [InlineData("bench.zip")]
    public void Pack_TheSameFilesMadeInAnotherOrderAtAnotherTime_GivesTheSameBytes(string archive)
    {
        byte[] first = Packed("one", archive, ["pocket/a.txt", "shimwright", "Licence", "bench.staticwebassets.endpoints.json"], 2001);
        byte[] second = Packed("two", archive, ["bench.staticwebassets.endpoints.json", "Licence", "shimwright", "pocket/a.txt"], 2025);
        Assert.Equal(first, second);
    }

    [Fact]
    public void Pack_ForUnix_KeepsTheProgramExecutable()
    {
        Packed("one", "bench.tar.gz", ["shimwright", "demo/shimwright.json"], 2001);
        using var gzip = new GZipStream(File.OpenRead(Path.Combine(_folder, "one", "bench.tar.gz")), CompressionMode.Decompress);
        using var tar = new TarReader(gzip);
        List<TarEntry> entries = [];
        while (tar.GetNextEntry() is { } entry)
        {
            entries.Add(entry);
        }

        Assert.Equal(["bench/demo/shimwright.json", "bench/shimwright"], entries.Select(e => e.Name));
        Assert.Equal([false, true], entries.Select(e => e.Mode.HasFlag(UnixFileMode.OtherExecute)));
        Assert.All(entries, e => Assert.Equal((Moment, 0), (e.ModificationTime, e.Uid)));
    }

    [Fact]
    public void Notices_OfTheProgram_HaveTheLicenceOfEveryPackageThatRuns()
    {
        string notices = ThirdPartyNotices.Of(Packages);
        JsonObject locked = JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "src", "Shimwright.Cli", "packages.lock.json")))!["dependencies"]!["net10.0"]!.AsObject();
        // Analyzers, what the build copies, and a package that only names others.
        string[] building =
        [
            "Microsoft.CodeAnalysis.BannedApiAnalyzers", "Microsoft.AspNetCore.App.Internal.Assets", "Microsoft.EntityFrameworkCore.Analyzers", "Microsoft.EntityFrameworkCore.Sqlite",
        ];
        string[] running = [.. locked.Where(p => p.Value!["type"]!.GetValue<string>() != "Project").Select(p => p.Key).Except(building, StringComparer.Ordinal).Order(StringComparer.OrdinalIgnoreCase)];
        Assert.Equal(running, Packages.Select(p => p.Name));
        Assert.All(Packages, p => Assert.Contains($"\n{p.Name} {p.Version}\n", notices, StringComparison.Ordinal));
        Assert.All(Packages, p => Assert.Matches($@"\nLicence of [^\n]*\b{p.Name.Replace(".", @"\.", StringComparison.Ordinal)}(,|\n)", notices));
        // One of each kind, in full.
        Assert.Contains("TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION", notices, StringComparison.Ordinal);
        Assert.Contains("IN NO EVENT SHALL THE NPGSQL DEVELOPMENT TEAM", notices, StringComparison.Ordinal);
    }

    [Fact]
    public void Licence_OfAPackageThatNamesNone_IsRefused()
    {
        var package = new Shipped("Drawer.Oil", "1.0.0", _folder, [], ["here"]);
        string nuspec = Path.Combine(_folder, "drawer.oil.nuspec");
        File.WriteAllText(nuspec, "<package><metadata><id>Drawer.Oil</id></metadata></package>");
        Assert.Contains("names no licence", Assert.Throws<InvalidDataException>(() => Licence.Of(package)).Message, StringComparison.Ordinal);
        File.WriteAllText(nuspec, "<package><metadata><id>Drawer.Oil</id><license type=\"expression\">LicenseRef-Oil</license></metadata></package>");
        Assert.Contains("under LicenseRef-Oil", Assert.Throws<InvalidDataException>(() => Licence.Of(package)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Bill_OfTheProgram_NamesEachPackageOnceWithItsChecksum()
    {
        string written = BillOfMaterials.Of("1.2.3", Moment, Packages, []);
        Assert.Equal(written, BillOfMaterials.Of("1.2.3", Moment, Packages, []));
        JsonNode bill = JsonNode.Parse(written)!;
        Assert.Equal(("CycloneDX", "1.6"), (bill["bomFormat"]!.GetValue<string>(), bill["specVersion"]!.GetValue<string>()));
        Assert.Equal(Moment, bill["metadata"]!["timestamp"]!.GetValue<DateTimeOffset>());
        JsonArray components = bill["components"]!.AsArray();
        string[] refs = [.. components.Select(c => c!["bom-ref"]!.GetValue<string>())];
        Assert.Equal(Packages.Select(p => p.Address), refs);
        Assert.Equal(refs.Length, refs.Distinct(StringComparer.Ordinal).Count());
        Assert.All(components, c => Assert.Matches("^[0-9a-f]{128}$", c!["hashes"]![0]!["content"]!.GetValue<string>()));
        // From the program every package is reached.
        Dictionary<string, string[]> needs = bill["dependencies"]!.AsArray()
            .ToDictionary(d => d!["ref"]!.GetValue<string>(), d => d!["dependsOn"]!.AsArray().Select(n => n!.GetValue<string>()).ToArray(), StringComparer.Ordinal);
        HashSet<string> reached = [];
        var open = new Stack<string>(["pkg:generic/shimwright@1.2.3"]);
        while (open.TryPop(out string? next))
        {
            foreach (string need in needs[next].Where(reached.Add))
            {
                open.Push(need);
            }
        }

        Assert.Equal(refs.Order(StringComparer.Ordinal), reached.Order(StringComparer.Ordinal));
        // Another content has another number; the same, another time, too.
        Assert.NotEqual(bill["serialNumber"]!.GetValue<string>(), JsonNode.Parse(BillOfMaterials.Of("1.2.3", Moment, [.. Packages.Skip(1)], []))!["serialNumber"]!.GetValue<string>());
    }

    /// <summary>The first address is an example of the specification of package URLs, type "deb"; without its second qualifier, which is not needed here.</summary>
    [Fact]
    public void Bill_OfAnImageOnABaseOfItsOwn_NamesItsPackages()
    {
        string list = Path.Combine(_folder, "base.txt"), sum = new('a', 64);
        File.WriteAllText(list, $"curl 7.50.3-1 i386 {sum}\nzlib++ 1:1.2.13+dfsg-1~x amd64 {sum}\ndotnet 10.0.12 - -\n");
        BasePackage[] inBase = [.. BasePackage.Read(list)];
        string[] addresses = ["pkg:deb/debian/curl@7.50.3-1?arch=i386", "pkg:deb/debian/zlib%2B%2B@1:1.2.13%2Bdfsg-1~x?arch=amd64", "pkg:generic/dotnet@10.0.12"];
        Assert.Equal(addresses, inBase.Select(p => p.Address));
        JsonNode bill = JsonNode.Parse(BillOfMaterials.Of("1.2.3", Moment, [], inBase))!;
        JsonArray components = bill["components"]!.AsArray();
        Assert.Equal(addresses, components.Select(c => c!["bom-ref"]!.GetValue<string>()));
        Assert.Equal([sum, sum, null], components.Select(c => c!["hashes"]?[0]!["content"]!.GetValue<string>()));
        Assert.Equal(addresses, bill["dependencies"]![0]!["dependsOn"]!.AsArray().Select(d => d!.GetValue<string>()));
        File.WriteAllText(list, "curl 7.50.3-1\n");
        Assert.Contains("curl 7.50.3-1", Assert.Throws<FormatException>(() => BasePackage.Read(list).ToArray()).Message, StringComparison.Ordinal);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private byte[] Packed(string where, string archive, string[] names, int year)
    {
        string root = Path.Combine(_folder, where, "bench");
        foreach (string name in names)
        {
            string file = Path.Combine(root, name);
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            // The build writes into its list of files when it made them.
            File.WriteAllText(file, name.EndsWith(".json", StringComparison.Ordinal)
                ? FormattableString.Invariant($$"""[{"Name":"Last-Modified","Value":"Fri, 01 May {{year}} 10:00:00 GMT"},{"Name":"ETag","Value":"x"}]""")
                : "What is in " + name);
            File.SetLastWriteTimeUtc(file, DateTime.Parse($"{year}-05-01", CultureInfo.InvariantCulture));
        }

        string target = Path.Combine(_folder, where, archive);
        Archives.Pack(root, target, Moment);
        return File.ReadAllBytes(target);
    }
}
