using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Shimwright.Bench.Contents;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.InMemory;

/// <summary>An archive is read whole or not at all, and what is wrong with it is said.</summary>
public class ArchiveTests
{
    [Theory]
    [InlineData("engines.jsonl", "\"name\":\"Flood pump 7\"", "\"name\":\"\"", "what is not a name of an engine")]
    [InlineData("engines.jsonl", "\"version\":1", "\"version\":1,\"more\":2", "found what is no such row")]
    [InlineData("facts.jsonl", "\"number\":2", "\"number\":3", "found it after 1")]
    [InlineData("facts.jsonl", "\"feel\":\"light\"", "\"feel\":", "found what is no such row")]
    [InlineData("jobs.jsonl", "\"setup\":{", "\"setup\":{\"x\":1,", "what a job starts from")]
    [InlineData("settings.jsonl", "\"unit\":\"mm\"", "\"unit\":\"ell\"", "found what is not settings")]
    public async Task Read_ARowThatWasChanged_IsNamed(string file, string from, string to, string words)
    {
        byte[] archive = await MadeAsync();
        Assert.NotNull(Read(archive).Contents);
        ReadArchive read = Read(Changed(archive, file, line => line.Replace(from, to, StringComparison.Ordinal), fits: true));
        Assert.Null(read.Contents);
        Assert.Contains(read.Problems, p => p.ToString().Contains(words, StringComparison.Ordinal));
    }

    /// <summary>What is JSON and no card was taken for one until its name was asked for.</summary>
    [Fact]
    public async Task Read_ACardThatIsAList_IsNamed()
    {
        ReadArchive read = Read(Changed(await MadeAsync(), "cards.jsonl", line => Regex.Replace(line, "\"card\":.*,\"details\":", "\"card\":[1],\"details\":"), fits: true));
        Assert.Contains(read.Problems, p => p.ToString().Contains("what is not a card of an engine", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Read_ALetterThatWasChangedBehindTheManifest_IsFound()
    {
        ReadArchive read = Read(Changed(await MadeAsync(), "engines.jsonl", line => line.Replace("Flood pump 7", "Flood pump 8", StringComparison.Ordinal), fits: false));
        Assert.Contains("letter by letter", Assert.Single(read.Problems).ToString(), StringComparison.Ordinal);
    }

    /// <summary>A small file that unpacks to a great one: no more of it is unpacked than an honest archive of its size holds.</summary>
    [Fact]
    public void Read_ABomb_EndsAtItsBound()
    {
        using MemoryStream packed = new();
        using (ZipArchive zip = new(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            using Stream manifest = zip.CreateEntry("manifest.json").Open();
            byte[] block = new byte[1 << 20];
            for (int n = 0; n < 400; n++)
            {
                manifest.Write(block);
            }
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.NotEmpty(Read(packed.ToArray()).Problems);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 400L << 20);
    }

    [Theory]
    [InlineData("")]
    [InlineData("no zip")]
    public void Read_WhatIsNoZip_IsSaid(string text) => Assert.Contains("cannot be unpacked", Assert.Single(Read(Encoding.UTF8.GetBytes(text)).Problems).ToString(), StringComparison.Ordinal);

    private static ReadArchive Read(byte[] archive)
    {
        using MemoryStream stream = new(archive);
        return BenchArchive.Read(stream);
    }

    private static async Task<byte[]> MadeAsync()
    {
        await using TestBench test = await TestBench.OfAsync(BenchKind.Memory);
        Guid job = await test.Bench.StartJobAsync();
        await test.Bench.SaveAsync(job, new Shimwright.Jobs.Facts.BladeTried(Shimwright.Jobs.Facts.SheetPart.Check, "I1", 0.1, 1, "light"), new Shimwright.Jobs.Facts.JobNoted("two"));
        await test.Bench.Settings.SaveAsync(new(), 0, "phone", Cancel);
        using MemoryStream archive = new();
        BenchArchive.Write(await test.Bench.Copies.ContentsAsync(Cancel), DateTime.UnixEpoch, archive);
        return archive.ToArray();
    }

    private static byte[] Changed(byte[] archive, string name, Func<string, string> change, bool fits)
    {
        using ZipArchive from = new(new MemoryStream(archive));
        using MemoryStream packed = new();
        using (ZipArchive to = new(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            string text = "";
            foreach (ZipArchiveEntry entry in from.Entries)
            {
                using StreamReader reader = new(entry.Open());
                string content = reader.ReadToEnd();
                if (entry.Name == name)
                {
                    text = content = change(content);
                }

                if (entry.Name == "manifest.json" && fits)
                {
                    JsonNode manifest = JsonNode.Parse(content)!;
                    manifest["files"]!.AsArray().Single(f => (string)f!["name"]! == name)!["sha256"] = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
                    content = manifest.ToJsonString();
                }

                using Stream stream = to.CreateEntry(entry.Name).Open();
                stream.Write(Encoding.UTF8.GetBytes(content));
            }
        }

        return packed.ToArray();
    }
}
