using Shimwright.Bench.Drawer;
using Shimwright.Storage.Database;
using Shimwright.Testing.Chance;
using static Shimwright.Testing.Shed.DrawerAudit;

namespace Shimwright.Testing.Shed;

/// <summary>
/// A shed with a number of engines and of stands to work at. Every tick some of the open jobs take a step, all at the same time, and
/// somebody looks at the drawer meanwhile; when the steps are done, what the bench says is compared with where the shims really are.
/// </summary>
internal sealed class HireShed
{
    private const double Works = 0.7;
    private const int CountedAtOnce = 5;
    private readonly IShedBench _bench;
    private readonly DrawerAudit _audit;
    private readonly ShimWorld _world;
    private readonly ShedEngine[] _engines;
    private readonly Dictionary<ShedEngine, int> _visits = [];
    private readonly List<ShedJob> _open = [];
    private readonly Draws _draws;
    private readonly int _seed;
    private readonly int _stands;

    public HireShed(IShedBench bench, DrawerAudit audit, int seed, int engines, int stands)
    {
        (_bench, _audit, _seed, _stands) = (bench, audit, seed, stands);
        _world = new(seed);
        _draws = new(seed, 100);
        _engines = [.. Enumerable.Range(0, engines).Select(n => new ShedEngine(seed, n, ShedKind.All[n % ShedKind.All.Count], _world))];
    }

    public IReadOnlyList<ShedEngine> Engines => _engines;

    public IReadOnlyList<ShedJob> Open => _open;

    /// <summary>How many more engines can be worked at.</summary>
    public int FreeStands => _stands - _open.Count;

    public int Closed { get; private set; }

    public ShedTally Tally { get; } = new();

    /// <summary>How many shims there are in all: in the drawer, in engines and on trays.</summary>
    public int Shims => _world.Made;

    /// <summary>How many shims were put into the drawer.</summary>
    public int PutIn { get; private set; }

    /// <summary>Brings the engines to the bench, and so many shims of each size from one to another into the drawer.</summary>
    public async Task OpenAsync(double perWeek, double from, double to, int each)
    {
        foreach (ShedEngine engine in _engines)
        {
            await _bench.AskAsync(new EngineAdded(engine.Id, engine.Name, ShedKind.All.Index().First(k => k.Item == engine.Kind).Index, perWeek));
        }

        foreach (ShimSize size in ShedKind.All.SelectMany(k => k.Sizes).Where(s => s.ThicknessMm >= from - 1e-9 && s.ThicknessMm <= to + 1e-9))
        {
            await PutInAsync(size, each);
        }
    }

    public async Task PutInAsync(ShimSize size, int count)
    {
        ShedAnswer answer = await _bench.AskAsync(new ShimsPutIn(size, count, _draws.Id()));
        Must(answer.IsSaved, string.Join("; ", answer.Problems));
        PutIn += count;
        for (int i = 0; i < count; i++)
        {
            _world.Lay(_world.Make(size));
        }
    }

    public void Start(ShedEngine engine)
    {
        int visit = _visits[engine] = _visits.GetValueOrDefault(engine) + 1;
        _open.Add(new(_bench, _world, engine, visit, new Draws(_seed, Array.IndexOf(_engines, engine), 3, visit)));
    }

    /// <summary>Some of the open jobs take a step.</summary>
    /// <returns>The jobs that were closed by it.</returns>
    public async Task<IReadOnlyList<ShedJob>> TickAsync()
    {
        ShedJob[] at = [.. _open.Where(_ => _draws.Happens(Works))];
        await Task.WhenAll([.. at.Select(j => Task.Run(j.StepAsync)), Task.Run(() => _audit.LookAsync())]);
        await CompareAsync();
        ShedJob[] closed = [.. _open.Where(j => j.IsClosed)];
        foreach (ShedJob job in closed)
        {
            Tally.Add(job.Tally);
            _open.Remove(job);
            Closed++;
        }

        return closed;
    }

    /// <summary>Counts the whole drawer; the bench must have known every count.</summary>
    public async Task StocktakeAsync()
    {
        IReadOnlyDictionary<ShimSize, int> before = (await _audit.LookAsync()).Counts;
        foreach (KeyValuePair<ShimSize, int>[] some in _world.Lying().Chunk(CountedAtOnce))
        {
            ShedAnswer answer = await _bench.AskAsync(new ShimsCounted([.. some.Select(l => new ShimCount(l.Key, l.Value))], _draws.Id()));
            Must(answer.IsSaved, string.Join("; ", answer.Problems));
        }

        IReadOnlyDictionary<ShimSize, int> after = (await _audit.LookAsync()).Counts;
        Must(after.All(c => before.GetValueOrDefault(c.Key) == c.Value), "a stocktake found what the bench did not know");
    }

    /// <summary>
    /// Nothing is in two places and nothing is lost: every shim that was ever made lies in a compartment, is in one valve or lies on one
    /// tray; a count is what lies there and what open jobs have fitted out of it; and just that is promised which the open jobs' plans use.
    /// </summary>
    private async Task CompareAsync()
    {
        DrawerState state = await _audit.LookAsync();
        IReadOnlyDictionary<ShimSize, int> lying = _world.Lying();
        foreach (ShimSize size in state.Counts.Keys.Union(lying.Keys))
        {
            int there = lying.GetValueOrDefault(size) + _open.Where(j => !j.IsClosed).Sum(j => j.FromDrawer.Count(s => s.Size == size));
            Must(state.Counts.GetValueOrDefault(size) == there, $"of {size} the bench has {state.Counts.GetValueOrDefault(size)}, and there are {there}");
        }

        Dictionary<(Guid, ShimSize), (int, int)> promised = _open
            .SelectMany(j => j.Promised().Select(p => (Key: (j.Id, p.Key), p.Value))).ToDictionary(p => p.Key, p => p.Value);
        Must(promised.Count == state.Promises.Count, $"the open jobs' plans use {promised.Count} sizes, and {state.Promises.Count} are promised");
        foreach (ShimPromiseRow row in state.Promises)
        {
            (int Count, int Fitted) wanted = promised.GetValueOrDefault((row.JobId, new(row.Diameter, row.Thickness, row.By)));
            Must(wanted == (row.Count, row.Fitted), $"job {row.JobId} uses {wanted} of {row.Thickness}, and {(row.Count, row.Fitted)} are promised");
        }

        int[] everywhere = [.. _world.InDrawer().Concat(_engines.SelectMany(e => e.Fitted)).Concat(_open.SelectMany(j => j.Tray)).Select(s => s.Number)];
        Must(everywhere.Length == _world.Made && everywhere.Distinct().Count() == everywhere.Length,
            $"{_world.Made} shims were made, {everywhere.Length} are somewhere, {everywhere.Distinct().Count()} of them different");
    }
}
