using Shimwright.Bench.Contents;
using Shimwright.Bench.InMemory;
using Shimwright.Testing.Benches;

namespace Shimwright.Bench.Tests;

/// <summary>
/// A store that knows keys and text and nothing else, as a browser's does, with a bench that keeps its rows there and a second one that hears
/// of them line by line.
/// </summary>
internal sealed class LineStore
{
    private readonly Lock _gate = new();
    private readonly SortedDictionary<string, string> _lines = new(StringComparer.Ordinal);
    private readonly List<KeptPicture> _pictures = [];
    private readonly List<(KeptLine[] Lines, IReadOnlyList<KeptPicture> Pictures)> _waiting = [];
    private readonly MemoryBench _follower;
    private readonly ManualTime _time;

    public LineStore(ManualTime time)
    {
        _time = time;
        _follower = new(time);
        Bench = new(time, null, Take, KeptAsync);
    }

    public MemoryBench Bench { get; }

    /// <summary>Fails where what lies here, or what was heard, is not what the bench holds.</summary>
    public void AssertKept()
    {
        string held = Written(Bench.Contents());
        Assert.Equal(held, Written(_follower.Contents()));
        Assert.Equal(held, Written(new MemoryBench(_time, KeptLines.Read(_lines.Select(l => new KeptLine(l.Key, l.Value))) with { Pictures = _pictures }).Contents()));
    }

    /// <summary>What an archive of it would hold.</summary>
    private static string Written(BenchContents contents)
    {
        using MemoryStream archive = new();
        BenchArchive.Write(contents with { Promises = [.. contents.Promises.Where(p => p.Promised.Count > 0)] }, default, archive);
        return Convert.ToHexString(archive.ToArray());
    }

    private void Take(BenchContents change)
    {
        lock (_gate)
        {
            HashSet<Guid> gone = [.. change.Removed.SelectMany(e => Bench.Contents().Alone(e).Jobs).Select(j => j.Id)];
            _pictures.RemoveAll(p => p.Job is { } job && gone.Contains(job));
            _waiting.Add(([.. KeptLines.Of(change, Bench.Contents)], change.Pictures));
        }
    }

    private async Task KeptAsync()
    {
        await Task.Yield();
        lock (_gate)
        {
            foreach ((KeptLine[] lines, IReadOnlyList<KeptPicture> pictures) in _waiting)
            {
                Put(lines);
                _pictures.AddRange(pictures);
                _follower.Follow(KeptLines.Read(lines.Where(l => !l.IsQuiet).OrderBy(l => l.Key, StringComparer.Ordinal)) with { Pictures = pictures });
            }

            _waiting.Clear();
        }
    }

    private void Put(KeptLine[] lines)
    {
        foreach (KeptLine line in lines)
        {
            if (line.Line is null)
            {
                _lines.Remove(line.Key);
            }
            else
            {
                _lines[line.Key] = line.Line;
            }
        }
    }
}
