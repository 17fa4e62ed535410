using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Starting;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Settings;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Alike;

/// <summary>Does at two benches what a shop does in a few years, drawn by chance, some of it wrong, late or twice.</summary>
internal sealed class RandomHand
{
    private static readonly string[] Names = ["Étoile du Nord", "étoile 2", "🔧 seven", "Flood pump 7", "a_b", "\ud7ffnine", "Zebra", "two\nlines"];
    private static readonly string[] Instruments = ["marked", "micrometer", "micrometer", "calliper"];

    private readonly Random _random;
    private readonly Twins _twins;
    private readonly RandomJobs _jobs;
    private readonly List<Guid> _engines = [], _people = [], _stamps = [];
    private readonly (int Weight, Func<Task<string>> Work)[] _kinds;

    public RandomHand(int seed, Twins twins)
    {
        (_random, _twins) = (new(seed), twins);
        _jobs = new(_random, twins);
        _kinds =
        [
            (4, () => AddEngineAsync(Pick(Names))), (2, ShareAsync), (3, SaveEngineAsync), (2, RetireAsync), (7, StartAsync), (3, RoundAsync), (6, StateUsageAsync), (4, SaveSettingsAsync), (5, WriteFeelAsync),
            (8, PutInAsync), (4, CountAsync), (4, MeasureAsync), (3, UndoEntryAsync), (4, RefreshAsync), (80, _jobs.WorkAsync),
        ];
    }

    /// <summary>How many things were saved.</summary>
    public int Saved { get; private set; }

    /// <summary>How many were refused.</summary>
    public int Refused { get; private set; }

    public async Task ActAsync(int times)
    {
        await AddEngineAsync(Names[0]);
        for (int n = 0; n < times; n++)
        {
            if (_random.Next(6) == 0)
            {
                _twins.Pass(TimeSpan.FromDays(_random.Next(1, 40)));
            }

            int drawn = _random.Next(_kinds.Sum(k => k.Weight));
            string answer = await _kinds.First(k => (drawn -= k.Weight) < 0).Work();
            Saved += answer.StartsWith("Saved:", StringComparison.Ordinal) ? 1 : 0;
            Refused += answer.StartsWith("Refused", StringComparison.Ordinal) ? 1 : 0;
            Func<Twin, Task<string>> view = Views.All[_random.Next(Views.All.Count)];
            await _twins.DoAsync("looked at", view);
        }
    }

    private Task<string> AddEngineAsync(string name)
    {
        Guid id = NewId();
        CardDetails details = new() { ShimDiameter = _random.Next(4) == 0 ? null : 9.48, ThinnestShim = _random.Next(3) == 0 ? 2.0 : null };
        return _twins.DoAsync($"engine {name}", async t =>
        {
            await t.Bench.Engines.AddAsync(id, name, Card(), details, "a\0b", cancel: Cancel);
            Remember(_engines, id);
            return "Saved:";
        });
    }

    private Task<string> ShareAsync()
    {
        (Guid id, Guid of, string name) = (NewId(), Pick(_engines), Pick(Names));
        return _twins.DoAsync($"{name} shares a card", async t =>
        {
            await t.Bench.Engines.AddSharingAsync(id, name, (await t.Bench.Engines.FindAsync(of, Cancel))!.CardId, Cancel);
            Remember(_engines, id);
            return "Saved:";
        });
    }

    private Task<string> SaveEngineAsync()
    {
        (Guid id, string name, int late) = (Pick(_engines), Pick(Names), _random.Next(4) == 0 ? 1 : 0);
        CardDetails details = new() { ShimDiameter = _random.Next(5) == 0 ? null : 9.48, Notes = "é", AccessMinutes = new Dictionary<string, double> { ["intake cam"] = _random.Next(60) } };
        return _twins.DoAsync($"{name} saved", async t =>
        {
            StoredEngine seen = (await t.Bench.Engines.FindAsync(id, Cancel))!;
            return $"{await t.Bench.Engines.SaveAsync((id, seen.Version - late, seen.CardVersion), name, seen.Card, details, "new", late == 0 ? new($" Owner {name.Length} ", "F-é") : null, Cancel)}:";
        });
    }

    private Task<string> RetireAsync()
    {
        (Guid id, bool isRetired) = (Pick(_engines), _random.Next(4) == 0);
        return _twins.DoAsync(isRetired ? "retired" : "in use", async t => await t.Bench.Engines.RetireAsync(id, isRetired, Cancel) ? "Saved:" : "Refused:");
    }

    private Task<string> StartAsync()
    {
        (Guid engine, Guid action, int run) = (Pick(_engines), NewId(), _random.Next(-5, 60));
        return _twins.DoAsync("job started", async t =>
        {
            StoredEngine found = (await t.Bench.Engines.FindAsync(engine, Cancel))!;
            double last = (await t.Bench.Due.FindAsync(engine, Cancel))?.Clock ?? 30;
            StartedJob started = await JobStart.OnAsync(t.Bench, found, new(last + run, 20), action, "phone", Cancel);
            if (started.Job is not { } job)
            {
                return $"Refused: {string.Join("; ", started.Problems)}";
            }

            Assert.Equal(job, (await JobStart.OnAsync(t.Bench, found, new(last + run, 20), action, "phone", Cancel)).Job);
            t.Jobs.Add(job);
            return "Saved:";
        });
    }

    private Task<string> RoundAsync()
    {
        if (_twins.First.Jobs.Count == 0)
        {
            return Task.FromResult("none");
        }

        (int place, Guid action) = (_random.Next(_twins.First.Jobs.Count), NewId());
        return _twins.DoAsync($"a round after job {place}", async t =>
        {
            StartedJob started = await NextRound.AfterAsync(t.Bench, (await t.Bench.Jobs.FindAsync(t.Jobs[place], Cancel))!, action, "phone", Cancel);
            Remember(t.Jobs, started.Job);
            return started.Job is null ? $"Refused: {string.Join("; ", started.Problems)}" : "Saved:";
        });
    }

    private Task<string> StateUsageAsync()
    {
        (Guid engine, double? week) = (Pick(_engines), _random.Next(8) switch { 0 => 0, 1 => null, _ => _random.Next(1, 60) });
        return _twins.DoAsync($"used {week} a week", async t => $"{await t.Bench.Due.StateUsageAsync(engine, week, Cancel)}");
    }

    private Task<string> SaveSettingsAsync()
    {
        int late = _random.Next(4) == 0 ? 1 : 0;
        BenchSettings settings = new() { Risk = 0.05 * _random.Next(1, 6), Currency = Pick(["", "€", "much too long for it"]), SizesToBuy = _random.Next(3) == 0 ? [] : new BenchSettings().SizesToBuy };
        return _twins.DoAsync("settings", async t => $"{await t.Bench.Settings.SaveAsync(settings, (await t.Bench.Settings.CurrentAsync(Cancel)).Version - late, "phone", Cancel)}");
    }

    private Task<string> WriteFeelAsync()
    {
        if (_people.Count < 3)
        {
            _people.Add(NewId());
        }

        (Guid person, Guid action) = (Pick(_people), NewId());
        FeelEntry entry = _random.Next(4) switch
        {
            0 => new FeelNamed(Pick(Names)),
            1 => new FeelTakenBack(_random.Next(1, 6)),
            _ => new FeelTried([new(0.195, 0.2, 1, "firm")]),
        };
        return _twins.DoAsync($"feel {entry.GetType().Name}", async t =>
        {
            var problems = await t.Bench.Feel.AddAsync(person, action, "phone", entry, Cancel);
            return problems.Count == 0 ? "Saved:" : $"Refused: {string.Join("; ", problems)}";
        });
    }

    private Task<string> PutInAsync()
    {
        ShimCount shims = new(Size(), _random.Next(0, 4), _random.Next(3) == 0 ? "B\0 4 " : null, _random.Next(3) == 0 ? _random.Next(20) : null);
        DrawerStamp stamp = Stamp();
        return _twins.DoAsync("put in", async t => Views.Text(await t.Bench.Drawer.AddAsync(shims, stamp, Cancel)));
    }

    private Task<string> CountAsync()
    {
        ShimCount[] counted = [new(Size(), _random.Next(0, 6)), new(Size(), _random.Next(0, 3), "C1")];
        DrawerStamp stamp = Stamp();
        return _twins.DoAsync("counted", async t => Views.Text(await t.Bench.Drawer.CountAsync(counted, stamp, Cancel)));
    }

    private Task<string> MeasureAsync()
    {
        (ShimSize marked, DrawerStamp stamp, int off) = (Size(), Stamp(), _random.Next(-5, 6));
        return _twins.DoAsync("measured", async t => Views.Text(await t.Bench.Drawer.MeasureAsync(marked with { By = "marked" }, marked.ThicknessMm + (0.01 * off), null, stamp, Cancel)));
    }

    private Task<string> UndoEntryAsync()
    {
        (int number, DrawerStamp stamp) = (_random.Next(1, 40), Stamp());
        return _twins.DoAsync($"entry {number} undone", async t => Views.Text(await t.Bench.Drawer.UndoAsync(number, stamp, Cancel)));
    }

    private Task<string> RefreshAsync() => _twins.DoAsync("refreshed", async t => $"{await t.Bench.Due.RefreshStaleAsync(100, Cancel)} left");

    /// <summary>Now and then one that was used before.</summary>
    private DrawerStamp Stamp()
    {
        if (_stamps.Count > 0 && _random.Next(8) == 0)
        {
            return new(Pick(_stamps), "tablet");
        }

        _stamps.Add(NewId());
        return new(_stamps[^1], "phone");
    }

    private ShimSize Size() => new(_random.Next(12) == 0 ? 8900 : 9480, 2350 + (25 * _random.Next(12)), Pick(Instruments));

    private static void Remember(List<Guid> ids, Guid? id)
    {
        if (id is { } known && !ids.Contains(known))
        {
            ids.Add(known);
        }
    }

    private T Pick<T>(IReadOnlyList<T> of) => of[_random.Next(of.Count)];

    private Guid NewId()
    {
        byte[] bytes = new byte[16];
        _random.NextBytes(bytes);
        return new(bytes);
    }
}
