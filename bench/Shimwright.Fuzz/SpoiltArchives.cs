using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.InMemory;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;

namespace Shimwright.Fuzz;

/// <summary>Archives of a bench, spoilt: as bytes, and row by row with a manifest that fits. What is taken in must answer.</summary>
internal sealed class SpoiltArchives(int seed)
{
    private static readonly Lazy<Task<byte[]>> Whole = new(MadeAsync);

    private readonly Random _random = new(seed);

    public SpoiltInput Next()
    {
        byte[] archive = Whole.Value.GetAwaiter().GetResult();
        int how = _random.Next(8);
        (string what, byte[] spoilt) = how switch
        {
            0 => ("bytes", Flipped(archive)),
            1 => ("cut", archive[.._random.Next(archive.Length)]),
            2 => ("bomb", Bomb()),
            _ => ("rows", Rows(archive)),
        };
        return new(what, spoilt, () => TakeInAsync(spoilt));
    }

    /// <summary>Reads it, and asks the bench that it makes for everything.</summary>
    private static async Task TakeInAsync(byte[] archive)
    {
        using MemoryStream stream = new(archive, writable: false);
        if (BenchArchive.Read(stream).Contents is not { } contents)
        {
            return;
        }

        MemoryBench bench = new(TimeProvider.System, contents);
        foreach (EngineSummary engine in await bench.Engines.ListAsync(null, 0, 20))
        {
            await bench.Engines.FindAsync(engine.Id);
            foreach (JobSummary job in await bench.Jobs.OfEngineAsync(engine.Id))
            {
                await bench.Jobs.FindAsync(job.Id);
            }
        }

        await bench.Drawer.LotsAsync();
        await bench.Marks.ListAsync();
        await bench.Feel.ListAsync();
        await bench.Settings.CurrentAsync();
    }

    private byte[] Flipped(byte[] archive)
    {
        byte[] bytes = [.. archive];
        for (int n = _random.Next(1, 5); n > 0; n--)
        {
            bytes[_random.Next(bytes.Length)] = (byte)_random.Next(256);
        }

        return bytes;
    }

    private byte[] Bomb()
    {
        using MemoryStream packed = new();
        using (ZipArchive zip = new(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            using Stream facts = zip.CreateEntry(_random.Next(2) == 0 ? "facts.jsonl" : "manifest.json").Open();
            byte[] block = new byte[1 << 20];
            for (int n = 0; n < 300; n++)
            {
                facts.Write(block);
            }
        }

        return packed.ToArray();
    }

    /// <summary>A row or two changed, taken away or there twice, and a manifest that says so.</summary>
    private byte[] Rows(byte[] archive)
    {
        using ZipArchive zip = new(new MemoryStream(archive), ZipArchiveMode.Read);
        Dictionary<string, List<string>> files = zip.Entries.Where(e => e.Name.EndsWith(".jsonl", StringComparison.Ordinal)).ToDictionary(e => e.Name, e =>
        {
            using StreamReader reader = new(e.Open());
            return reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).ToList();
        });
        for (int n = _random.Next(1, 4); n > 0; n--)
        {
            List<string> lines = files.Values.ElementAt(_random.Next(files.Count));
            if (lines.Count > 0)
            {
                Spoil(lines, _random.Next(lines.Count));
            }
        }

        using MemoryStream packed = new();
        using (ZipArchive made = new(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            JsonArray told = [];
            foreach ((string name, List<string> lines) in files)
            {
                byte[] bytes = Encoding.UTF8.GetBytes(string.Concat(lines.Select(l => l + "\n")));
                told.Add(new JsonObject { ["name"] = name, ["rows"] = lines.Count, ["sha256"] = Convert.ToHexStringLower(SHA256.HashData(bytes)) });
                using Stream file = made.CreateEntry(name, CompressionLevel.Fastest).Open();
                file.Write(bytes);
            }

            using Stream manifest = made.CreateEntry("manifest.json").Open();
            manifest.Write(Encoding.UTF8.GetBytes(new JsonObject { ["format"] = "shimwright-bench", ["edition"] = 1, ["madeAt"] = "2026-03-01T08:00:00Z", ["files"] = told }.ToJsonString()));
        }

        return packed.ToArray();
    }

    private void Spoil(List<string> lines, int at)
    {
        switch (_random.Next(6))
        {
            case 0:
                lines.RemoveAt(at);
                break;
            case 1:
                lines.Insert(_random.Next(lines.Count), lines[at]);
                break;
            case 2:
                lines[at] = lines[at][.._random.Next(lines[at].Length)];
                break;
            case > 2 when !IsJson(lines[at]):
                // Cut before.
                lines.RemoveAt(at);
                break;
            default:
                JsonNode row = JsonNode.Parse(lines[at])!;
                Change(row);
                lines[at] = row.ToJsonString();
                break;
        }
    }

    private static bool IsJson(string line)
    {
        try
        {
            return JsonNode.Parse(line) is not null;
        }
        catch (System.Text.Json.JsonException)
        {
            return false;
        }
    }

    /// <summary>Changes one value, however deep.</summary>
    private void Change(JsonNode node)
    {
        while (true)
        {
            if (node is JsonObject map && map.Count > 0)
            {
                (string name, JsonNode? value) = map.ElementAt(_random.Next(map.Count));
                if (value is JsonObject or JsonArray && _random.Next(4) > 0)
                {
                    node = value;
                    continue;
                }

                map[name] = Odd();
                return;
            }

            if (node is JsonArray list && list.Count > 0)
            {
                int at = _random.Next(list.Count);
                if (list[at] is JsonObject or JsonArray && _random.Next(4) > 0)
                {
                    node = list[at]!;
                    continue;
                }

                list[at] = Odd();
            }

            return;
        }
    }

    private JsonNode? Odd() => _random.Next(14) switch
    {
        0 => null,
        1 => -1,
        2 => 0,
        3 => int.MaxValue,
        4 => 1e300,
        5 => "",
        6 => "x",
        7 => new string('9', 300),
        8 => "\0\ud800",
        9 => true,
        10 => new JsonArray(),
        11 => new JsonObject(),
        12 => Guid.NewGuid().ToString(),
        _ => 0.05 * _random.Next(100),
    };

    private static async Task<byte[]> MadeAsync()
    {
        MemoryBench bench = new(TimeProvider.System);
        foreach (string job in Demos.Jobs)
        {
            ParsedSetup file = JobSetup.FromFile(Encoding.UTF8.GetBytes(job));
            Guid engine = Guid.NewGuid();
            await bench.Engines.AddAsync(engine, file.Setup!.Card.Engine.Name, file.Setup.Card, new CardDetails { ShimDiameter = 9.48 });
            await bench.Jobs.StartAsync(engine, file.Setup, file.Facts, Guid.NewGuid(), "fuzz");
        }

        await bench.Drawer.AddAsync(new(ShimSize.Of(9.48, 2.5, "marked"), 3, "A1", 7.5), new(Guid.NewGuid(), "fuzz"));
        await bench.Settings.SaveAsync(new BenchSettings { Currency = "EUR" }, 0, "fuzz");
        await bench.Feel.AddAsync(Guid.NewGuid(), Guid.NewGuid(), "fuzz", new FeelNamed("Somebody"));
        using MemoryStream archive = new();
        BenchArchive.Write(await bench.Copies.ContentsAsync(), DateTime.UnixEpoch, archive);
        return archive.ToArray();
    }
}
