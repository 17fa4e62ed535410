using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Settings;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Due;

/// <summary>
/// Which engines have a forecast that is stale. Where none had, none has until something of what forecasts rest on is another: to ask
/// for that is much less work than to go through all engines, and lists ask each time. Now and then all are gone through even so: another
/// server may be slow to keep what it has worked out, and lay an older forecast over a newer one.
/// </summary>
internal sealed class StaleEngines(Func<BenchContext> open, ISettings settings, TimeProvider time)
{
    private static readonly TimeSpan Trusted = TimeSpan.FromMinutes(1);

    /// <summary>What there was when none was stale.</summary>
    private volatile Basis? _fresh;

    /// <summary>Lets the next look go through all engines: something was kept.</summary>
    public void LookAgain() => _fresh = null;

    /// <summary>The stale ones, those of a card after one another.</summary>
    public async Task<IReadOnlyList<Guid>> ListAsync(CancellationToken cancel)
    {
        await using BenchContext context = open();
        Basis now = await BasisAsync(context, cancel);
        if (_fresh is { } fresh && now == fresh with { LastChange = now.LastChange, SeenAt = now.SeenAt } && time.GetElapsedTime(fresh.SeenAt, now.SeenAt) < Trusted
            && !await HasChangedAsync(context, fresh.LastChange, now.LastChange, cancel))
        {
            _fresh = now with { SeenAt = fresh.SeenAt };
            return [];
        }

        List<Guid> stale = await Of(context, now.Mark).OrderBy(e => e.CardId).ThenBy(e => e.Id).Select(e => e.Id).ToListAsync(cancel);
        _fresh = stale.Count == 0 ? now : null;
        return stale;
    }

    /// <summary>Whether an engine is one of them.</summary>
    public async Task<bool> HasAsync(BenchContext context, Guid engine, CancellationToken cancel) =>
        await Of(context, await MarkAsync(cancel)).AnyAsync(e => e.Id == engine, cancel);

    /// <summary>Engines that have something to forecast from and whose forecast is missing or rests on what is no longer so.</summary>
    private static IQueryable<EngineRow> Of(BenchContext context, string mark) => context.Engines.AsNoTracking()
        .Where(e => e.Changes > 0 && !context.Forecasts.Any(f => f.EngineId == e.Id
            && f.Changes == e.Changes && f.CardVersion == e.Card.Version && f.SettingsMark == mark
            && f.RatesVersion == (context.CardRates.Where(r => r.CardId == e.CardId).Select(r => (int?)r.Version).FirstOrDefault() ?? 0)));

    private async Task<Basis> BasisAsync(BenchContext context, CancellationToken cancel)
    {
        string mark = await MarkAsync(cancel);
        var step = await context.Steps.Select(s => new { s.Bench, s.Last }).SingleAsync(cancel);
        // Another server on the database works forecasts out, too, and that moves rates.
        return new(time.GetTimestamp(), step.Bench, step.Last, mark, await context.CardRates.SumAsync(r => (long)r.Version, cancel), await context.Forecasts.CountAsync(cancel));
    }

    /// <summary>Whether an engine or a card is another since then, and not only jobs: these change with every tap.</summary>
    private static async Task<bool> HasChangedAsync(BenchContext context, long since, long now, CancellationToken cancel) => since != now
        && (await context.Changes.Where(c => c.At > since).Select(c => c.Kind).Distinct().ToListAsync(cancel)).Any(k => k is StepModel.Engine or StepModel.Card);

    private async Task<string> MarkAsync(CancellationToken cancel) => Forecaster.MarkOf((await settings.CurrentAsync(cancel)).Settings);

    private sealed record Basis(long SeenAt, string Bench, long LastChange, string Mark, long Rates, int Forecasts);
}
