using Shimwright.Bench.Due;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;

namespace Shimwright.Bench.InMemory;

/// <summary>The forecasts of a bench in memory.</summary>
internal sealed class MemoryDue(MemoryState state) : IDue
{
    private volatile bool _isKept;

    /// <inheritdoc/>
    public Task<IReadOnlyList<DueEngine>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default) => state.DoAsync(
        IReadOnlyList<DueEngine> () =>
        {
            string text = SearchText.Of(search ?? "");
            return
            [
                .. state.Engines.Values.Where(e => e.Row.RetiredAt is null && e.Search.Contains(text, StringComparison.Ordinal))
                    .OrderBy(e => RankOf(e.Forecast?.Shown)).ThenBy(e => e.Forecast?.Forecast.DueAt).ThenBy(e => e.Search, SearchText.Order).ThenBy(e => e.Row.Id)
                    .Skip(skip).Take(take).Select(e => new DueEngine(e.Row.Id, e.Row.Name, e.Forecast?.Shown)),
            ];
        },
        cancel);

    /// <inheritdoc/>
    public async Task<IReadOnlyList<DueEngine>> DatedAsync(int most, CancellationToken cancel = default) =>
        [.. (await ListAsync(null, 0, most, cancel)).TakeWhile(e => e.Forecast?.DueAt is not null)];

    /// <inheritdoc/>
    public Task<KeptForecast?> FindAsync(Guid engineId, CancellationToken cancel = default) => state.DoAsync(() => Fresh(engineId)?.Forecast?.Shown, cancel);

    /// <inheritdoc/>
    public Task<int> RefreshStaleAsync(int most, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            MemoryEngine[] stale = [.. state.Engines.Values.Where(IsStale).OrderBy(e => e.Row.CardId).ThenBy(e => e.Row.Id)];
            if (_isKept && stale.Length > most)
            {
                return stale.Length;
            }

            RefreshFirst(stale, most);
            return stale.Length == 0 ? 0 : state.Engines.Values.Count(IsStale);
        },
        cancel);

    /// <inheritdoc/>
    public async Task KeepFreshAsync(IPace pace, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(pace);
        _isKept = true;
        bool isStale = true;
        while (isStale)
        {
            // The bench is held for one engine at a time.
            isStale = await await pace.DoAsync(() => state.DoAsync(() => RefreshFirst([.. state.Engines.Values.Where(IsStale)], 1) > 0, cancel), cancel);
        }
    }

    /// <inheritdoc/>
    public Task<StoredOutlook?> OutlookAsync(Guid engineId, CancellationToken cancel = default) => state.DoAsync(
        () => Fresh(engineId) is { } engine ? Forecaster.Outlook(ToForecast(engine), state.Cards[engine.Row.CardId].Rates, state.Settings) : null, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<PastJob>> PastAsync(Guid engineId, CancellationToken cancel = default) => state.DoAsync(() => PastOf(engineId).Jobs, cancel);

    /// <inheritdoc/>
    public Task<double?> StatedUsageAsync(Guid engineId, CancellationToken cancel = default) =>
        state.DoAsync(() => state.Engines.GetValueOrDefault(engineId)?.Row.PerWeek, cancel);

    /// <inheritdoc/>
    public Task<bool> StateUsageAsync(Guid engineId, double? perWeek, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            DueRules.CheckUsage(perWeek);
            if (!state.Engines.TryGetValue(engineId, out MemoryEngine? engine))
            {
                return false;
            }

            state.Change(new() { Engines = [engine.Row with { PerWeek = perWeek, Changes = engine.Row.Changes + 1 }] });
            return true;
        },
        cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<ScoredRecord>> RecordsAsync(int most, CancellationToken cancel = default) => state.DoAsync(
        IReadOnlyList<ScoredRecord> () =>
        [
            .. state.Jobs.Values.Select(j => j.Row).Where(j => j is { ClosedAt: not null, Record: not null, DiscardedAt: null }).OrderByDescending(j => j.ClosedAt).ThenBy(j => j.Id).Take(most)
                .Select(j => new ScoredRecord(JobRecord.Read(j.Record!), j.Past.Follows is not null) { ClosedAt = j.ClosedAt!.Value }),
        ],
        cancel);

    private static int RankOf(KeptForecast? forecast) => forecast is null ? 3 : forecast.DueAt is not null ? 0 : forecast.CheckBy is not null ? 1 : 2;

    /// <summary>An engine whose forecast holds, if it has anything to forecast from; null where there is no such engine.</summary>
    private MemoryEngine? Fresh(Guid id)
    {
        MemoryEngine? engine = state.Engines.GetValueOrDefault(id);
        if (engine is not null && IsStale(engine))
        {
            Refresh([engine]);
        }

        return engine;
    }

    private bool IsStale(MemoryEngine engine)
    {
        MemoryCard card = state.Cards[engine.Row.CardId];
        return engine.Row.Changes > 0 && engine.Forecast?.Basis != new ForecastBasis(engine.Row.Changes, card.Row.Version, card.Rates.Version, state.SettingsMark);
    }

    /// <summary>Works out the first few; how many these were.</summary>
    private int RefreshFirst(IReadOnlyList<MemoryEngine> stale, int most)
    {
        MemoryEngine[] first = [.. stale.Take(most)];
        foreach (IGrouping<Guid, MemoryEngine> card in first.GroupBy(e => e.Row.CardId))
        {
            Refresh([.. card]);
        }

        return first.Length;
    }

    /// <summary>Works out engines of one card.</summary>
    private void Refresh(IReadOnlyList<MemoryEngine> engines)
    {
        Guid cardId = engines[0].Row.CardId;
        MemoryCard card = state.Cards[cardId];
        SideEvidence[] others =
        [
            .. state.Engines.Values.Where(e => e.Row.CardId == cardId && !engines.Contains(e)).OrderBy(e => e.Row.Id).Select(e => e.Forecast?.Evidence).OfType<SideEvidence>(),
        ];
        CardForecasts worked = Forecaster.Of([.. engines.Select(ToForecast)], others, card.Rates, state.Settings);
        card.Rates = worked.Rates;
        foreach ((MemoryEngine engine, WorkedForecast forecast) in engines.Zip(worked.Forecasts))
        {
            engine.Forecast = forecast;
        }
    }

    private EngineToForecast ToForecast(MemoryEngine engine)
    {
        MemoryCard card = state.Cards[engine.Row.CardId];
        return new(engine.Row.Id, engine.Row.Changes, card.Row.Version, card.Card, card.Details, engine.Row.PerWeek, PastOf(engine.Row.Id));
    }

    private EnginePast PastOf(Guid engine) => EnginePast.Of(state.Jobs.Values.Where(j => j.Row.EngineId == engine && j.Row is { ClosedAt: not null, DiscardedAt: null })
        .Select(j => new ClosedJob(new(j.Row.Id, j.Sheet, j.Row.Past.Origin, j.Row.Past.Follows), j.Row.StartedAt, j.Row.ClosedAt!.Value)));
}
