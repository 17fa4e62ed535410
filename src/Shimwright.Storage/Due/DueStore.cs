using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Settings;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Storage.Database;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Due;

/// <summary>When each engine is due, and the past that says so. Lists read what is kept; what is stale is worked out again here.</summary>
internal sealed partial class DueStore : IDue
{
    private const int MostRounds = 10;

    private readonly Func<BenchContext> _open;
    private readonly ISettings _settings;
    private readonly SheetReader _sheets;
    private readonly StaleEngines _stale;
    private readonly OutlookCache _outlooks = new();

    /// <summary>Whether what is stale is worked out in the background here: a page then need not wait for many.</summary>
    private volatile bool _isKept;

    /// <summary>Those that the background has still to read.</summary>
    private readonly ConcurrentDictionary<Guid, bool> _ahead = new();

    /// <summary>How many the background has still before it.</summary>
    private int _left;

    internal DueStore(Func<BenchContext> open, SheetReader sheets, ISettings settings, TimeProvider time)
    {
        _open = open;
        _settings = settings;
        _stale = new(open, settings, time);
        _sheets = sheets;
    }

    /// <summary>How many engines are worked out and kept together.</summary>
    internal int AtATime { get; init; } = 25;

    /// <summary>The most engines that a card's rates are worked out from.</summary>
    internal int MostTeachers { get; init; } = CardPool.MostEngines;

    /// <inheritdoc/>
    public async Task<KeptForecast?> FindAsync(Guid engineId, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await KeptAsync(context, engineId, cancel)
            ? ForecastRows.Shown(await context.Forecasts.AsNoTracking().FirstOrDefaultAsync(f => f.EngineId == engineId, cancel))
            : await (await WorkAsync(context, cancel)).LookAsync(engineId, cancel);
    }

    /// <inheritdoc/>
    public async Task<int> RefreshStaleAsync(int most, CancellationToken cancel = default)
    {
        if (Volatile.Read(ref _left) is var left && left > most)
        {
            return left;
        }

        IReadOnlyList<Guid> stale = await _stale.ListAsync(cancel);
        if (stale.Count == 0 || (_isKept && stale.Count > most))
        {
            return stale.Count;
        }

        await RefreshAsync([.. stale.Take(most)], Paces.Steady, _ => { }, cancel);
        return (await _stale.ListAsync(cancel)).Count;
    }

    /// <summary>Another server works out what is stale.</summary>
    internal void KeptElsewhere() => _isKept = true;

    /// <inheritdoc/>
    public async Task KeepFreshAsync(IPace pace, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(pace);
        _isKept = true;
        // What is worked out can move a card's rates, and so make others stale that were not; not for ever, and the keeper comes again.
        for (int round = 0; round < MostRounds && await _stale.ListAsync(cancel) is { Count: > 0 } stale; round++)
        {
            Volatile.Write(ref _left, stale.Count);
            foreach (Guid engine in stale)
            {
                _ahead[engine] = true;
            }

            try
            {
                await RefreshAsync(stale, pace, done => Interlocked.Add(ref _left, -done), cancel);
            }
            finally
            {
                Volatile.Write(ref _left, 0);
                _ahead.Clear();
            }
        }
    }

    /// <inheritdoc/>
    public async Task<StoredOutlook?> OutlookAsync(Guid engineId, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        if (!await KeptAsync(context, engineId, cancel))
        {
            return await OutlookNowAsync();
        }

        var basis = await context.Forecasts.AsNoTracking().Where(f => f.EngineId == engineId)
            .Select(f => new { f.Changes, f.CardVersion, f.RatesVersion, f.SettingsMark }).FirstOrDefaultAsync(cancel);
        return basis is null
            ? await OutlookNowAsync()
            : await _outlooks.GetAsync(engineId, new(basis.Changes, basis.CardVersion, basis.RatesVersion, basis.SettingsMark), OutlookNowAsync);

        async Task<StoredOutlook?> OutlookNowAsync() =>
            await (await WorkAsync(context, cancel)).OutlookAsync(engineId, cancel);
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<PastJob>> PastAsync(Guid engineId, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return (await ForecastWork.PastAsync(context, _sheets, engineId, cancel)).Jobs;
    }

    /// <inheritdoc/>
    public async Task<double?> StatedUsageAsync(Guid engineId, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return (await context.Engines.AsNoTracking().Where(e => e.Id == engineId).Select(e => new { e.UsagePerWeek }).FirstOrDefaultAsync(cancel))?.UsagePerWeek;
    }

    /// <inheritdoc/>
    public async Task<bool> StateUsageAsync(Guid engineId, double? perWeek, CancellationToken cancel = default)
    {
        DueRules.CheckUsage(perWeek);
        await using BenchContext context = _open();
        return await context.InTransactionAsync(
            async transaction =>
            {
                bool isThere = await context.Engines.Where(e => e.Id == engineId).ExecuteUpdateAsync(
                    s => s.SetProperty(e => e.UsagePerWeek, perWeek).SetProperty(e => e.Changes, e => e.Changes + 1), cancel) > 0;
                await transaction.CommitAsync(cancel);
                return isThere;
            },
            cancel);
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<ScoredRecord>> RecordsAsync(int most, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        var rows = await context.Jobs.AsNoTracking().Where(j => j.ClosedAt != null && j.Record != null && j.DiscardedAt == null)
            .OrderByDescending(j => j.ClosedAt).ThenBy(j => j.Id).Take(most).Select(j => new { j.Record, j.FollowsId, j.ClosedAt }).ToListAsync(cancel);
        return [.. rows.Select(r => new ScoredRecord(JobRecord.Read(r.Record!), r.FollowsId is not null) { ClosedAt = r.ClosedAt!.Value })];
    }

    /// <summary>
    /// Whether a forecast that holds is kept now. While the background works through many it keeps them as fast as it can, and nobody who only looks
    /// at one that it has still to read waits to write between: it soon keeps that one, too.
    /// </summary>
    private async Task<bool> KeptAsync(BenchContext context, Guid engineId, CancellationToken cancel)
    {
        if (!await _stale.HasAsync(context, engineId, cancel))
        {
            return true;
        }

        if (_ahead.ContainsKey(engineId))
        {
            return false;
        }

        try
        {
            return await (await WorkAsync(context, cancel)).RefreshAsync([engineId], cancel);
        }
        catch (DbUpdateException)
        {
            // Nothing can be kept, as on a full disk: it is shown all the same.
            return false;
        }
        finally
        {
            _stale.LookAgain();
        }
    }

    /// <summary>
    /// Works out engines, a few at a time, those of a card after one another: each few are kept by themselves. In the background the next few are
    /// read meanwhile, which takes a quarter of the time.
    /// </summary>
    private async Task RefreshAsync(IReadOnlyList<Guid> engines, IPace pace, Action<int> done, CancellationToken cancel)
    {
        Guid[][] parts = [.. engines.Chunk(AtATime)];
        Dictionary<Guid, Dictionary<Guid, SideEvidence>> said = [];
        Task<ILookup<Guid, EngineToForecast>>? ahead = null;
        try
        {
            foreach ((int i, Guid[] few) in parts.Index())
            {
                ILookup<Guid, EngineToForecast> loaded = await (ahead ?? LoadAsync(few));
                ahead = pace.AtOnce > 1 && i + 1 < parts.Length ? Task.Run(() => LoadAsync(parts[i + 1]), cancel) : null;
                await InContextAsync(work => work.RefreshAsync(loaded, said, pace, cancel));
                done(few.Length);
            }
        }
        finally
        {
            _stale.LookAgain();
            await (ahead ?? Task.CompletedTask).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        Task<ILookup<Guid, EngineToForecast>> LoadAsync(Guid[] few)
        {
            // Whatever changes from here on is not seen by what is read now.
            foreach (Guid engine in few)
            {
                _ahead.TryRemove(engine, out _);
            }

            return InContextAsync(work => work.EnginesAsync(few, cancel));
        }

        // A context of its own, so that what was read for some does not stay for all.
        async Task<T> InContextAsync<T>(Func<ForecastWork, Task<T>> work)
        {
            await using BenchContext context = _open();
            return await work(await WorkAsync(context, cancel));
        }
    }

    private async Task<ForecastWork> WorkAsync(BenchContext context, CancellationToken cancel) =>
        new(context, _sheets, (await _settings.CurrentAsync(cancel)).Settings) { MostTeachers = MostTeachers };
}
