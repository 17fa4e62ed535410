using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Due;

/// <summary>Loads what forecasts are worked out from, and keeps what comes out.</summary>
internal sealed class ForecastWork(BenchContext context, SheetReader sheets, BenchSettings settings)
{
    /// <summary>Works out engines of one card.</summary>
    public async Task RefreshAsync(IReadOnlyList<Guid> engines, IPace pace, CancellationToken cancel)
    {
        (IReadOnlyList<EngineToForecast> known, Guid card) = await EnginesAsync(engines, cancel);
        if (known.Count == 0)
        {
            return;
        }

        Guid[] now = [.. known.Select(k => k.Id)];
        CardRatesRow? row = await context.CardRates.FirstOrDefaultAsync(r => r.CardId == card, cancel);
        CardRates before = ForecastRows.Read(row);
        CardForecasts worked = await Forecaster.AtAsync(known, await OthersAsync(card, now, cancel), before, settings, pace, cancel);
        if (worked.Rates.Version != before.Version)
        {
            ForecastRows.Write(worked.Rates, row ?? context.CardRates.Add(new() { CardId = card }).Entity);
        }

        Dictionary<Guid, KeptForecastRow> kept = await context.Forecasts.Where(f => now.Contains(f.EngineId)).ToDictionaryAsync(f => f.EngineId, cancel);
        foreach (WorkedForecast forecast in worked.Forecasts)
        {
            ForecastRows.Write(forecast, kept.GetValueOrDefault(forecast.Engine) ?? context.Forecasts.Add(new() { EngineId = forecast.Engine }).Entity);
        }

        try
        {
            await context.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException)
        {
            // Another view of the bench kept the same forecast first; what it lacks is stale and comes next.
            context.ChangeTracker.Clear();
        }
    }

    /// <summary>The outlook of an engine with the rates that are kept.</summary>
    public async Task<StoredOutlook?> OutlookAsync(Guid engineId, CancellationToken cancel) =>
        await EnginesAsync([engineId], cancel) is ([var engine], var card)
            ? Forecaster.Outlook(
                engine, ForecastRows.Read(await context.CardRates.AsNoTracking().FirstOrDefaultAsync(r => r.CardId == card, cancel)), settings)
            : null;

    /// <summary>An engine's closed jobs.</summary>
    public static async Task<EnginePast> PastAsync(BenchContext context, SheetReader sheets, Guid engineId, CancellationToken cancel) =>
        EnginePast.Of((await ClosedAsync(context, sheets, [engineId], cancel))[engineId]);

    /// <summary>The closed jobs of engines.</summary>
    private static async Task<ILookup<Guid, ClosedJob>> ClosedAsync(BenchContext context, SheetReader sheets, IReadOnlyList<Guid> engines, CancellationToken cancel)
    {
        List<JobRow> rows = await context.Jobs.AsNoTracking().Where(j => engines.Contains(j.EngineId) && j.ClosedAt != null && j.DiscardedAt == null).ToListAsync(cancel);
        return (await sheets.OfAllAsync(context, rows, cancel)).ToLookup(
            j => j.Row.EngineId, j => new ClosedJob(new(j.Row.Id, j.Sheet, (PastOrigin)j.Row.Past, j.Row.FollowsId), j.Row.StartedAt, j.Row.ClosedAt!.Value));
    }

    /// <summary>Engines of one card, and the card. Each thing that they need is asked for once, for all of them.</summary>
    private async Task<(IReadOnlyList<EngineToForecast> Engines, Guid Card)> EnginesAsync(IReadOnlyList<Guid> ids, CancellationToken cancel)
    {
        List<EngineRow> rows = await context.Engines.AsNoTracking().Where(e => ids.Contains(e.Id)).OrderBy(e => e.Id).ToListAsync(cancel);
        if (rows is not [var first, ..])
        {
            return ([], Guid.Empty);
        }

        CardRow kept = await context.Cards.AsNoTracking().FirstAsync(c => c.Id == first.CardId, cancel);
        EngineCard card = EngineCard.Read(kept.Card).Card ?? throw new InvalidOperationException("A card that was kept can no longer be read.");
        CardDetails details = CardDetails.Read(kept.Details);
        ILookup<Guid, ClosedJob> closed = await ClosedAsync(context, sheets, [.. rows.Select(r => r.Id)], cancel);
        return ([.. rows.Select(e => new EngineToForecast(e.Id, e.Changes, kept.Version, card, details, e.UsagePerWeek, EnginePast.Of(closed[e.Id])))], kept.Id);
    }

    /// <summary>What the card's other engines said of their rates when they were worked out last.</summary>
    private async Task<IReadOnlyList<SideEvidence>> OthersAsync(Guid card, Guid[] now, CancellationToken cancel)
    {
        var others = await context.Forecasts.AsNoTracking()
            .Where(f => !now.Contains(f.EngineId) && context.Engines.Any(e => e.Id == f.EngineId && e.CardId == card))
            .OrderBy(f => f.EngineId).Select(f => new { f.IntakeEvidence, f.ExhaustEvidence }).ToListAsync(cancel);
        return [.. others.Select(o => ForecastRows.Evidence(o.IntakeEvidence, o.ExhaustEvidence))];
    }
}
