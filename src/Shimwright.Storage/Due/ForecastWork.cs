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
    public async Task RefreshAsync(IReadOnlyList<Guid> engines, CancellationToken cancel) =>
        await RefreshAsync(await EnginesAsync(engines, cancel), [], Paces.Steady, cancel);

    /// <summary>Works out engines of one card that were loaded, as <see cref="EnginesAsync"/> loads them.</summary>
    /// <param name="loaded">The engines, and their card.</param>
    /// <param name="said">What engines of cards say of their rates: the card's are asked for where they are missing, and kept up to date.</param>
    /// <param name="pace">How hard they are worked at.</param>
    /// <param name="cancel">Stops it.</param>
    public async Task RefreshAsync(
        (IReadOnlyList<EngineToForecast> Engines, Guid Card) loaded, Dictionary<Guid, Dictionary<Guid, SideEvidence>> said, IPace pace, CancellationToken cancel)
    {
        (IReadOnlyList<EngineToForecast> known, Guid card) = loaded;
        if (known.Count == 0)
        {
            return;
        }

        Guid[] now = [.. known.Select(k => k.Id)];
        CardRatesRow? row = await context.CardRates.FirstOrDefaultAsync(r => r.CardId == card, cancel);
        CardRates before = ForecastRows.Read(row);
        if (!said.TryGetValue(card, out Dictionary<Guid, SideEvidence>? evidence))
        {
            said[card] = evidence = await EvidenceAsync(card, cancel);
        }

        SideEvidence[] others = [.. evidence.Where(e => !now.Contains(e.Key)).OrderBy(e => e.Key).Select(e => e.Value)];
        CardForecasts worked = await Forecaster.AtAsync(known, others, before, settings, pace, cancel);
        if (worked.Rates.Version != before.Version)
        {
            ForecastRows.Write(worked.Rates, row ?? context.CardRates.Add(new() { CardId = card }).Entity);
        }

        Dictionary<Guid, KeptForecastRow> kept = await context.Forecasts.Where(f => now.Contains(f.EngineId)).ToDictionaryAsync(f => f.EngineId, cancel);
        foreach (WorkedForecast forecast in worked.Forecasts)
        {
            evidence[forecast.Engine] = forecast.Evidence;
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
        // Without its record, which is as long as all the rest.
        List<JobRow> rows = await context.Jobs.AsNoTracking().Where(j => engines.Contains(j.EngineId) && j.ClosedAt != null && j.DiscardedAt == null)
            .Select(j => new JobRow
            {
                Id = j.Id,
                EngineId = j.EngineId,
                Setup = j.Setup,
                Last = j.Last,
                Past = j.Past,
                FollowsId = j.FollowsId,
                StartedAt = j.StartedAt,
                ClosedAt = j.ClosedAt,
            }).ToListAsync(cancel);
        return (await sheets.OfAllAsync(context, rows, cancel)).ToLookup(
            j => j.Row.EngineId, j => new ClosedJob(new(j.Row.Id, j.Sheet, (PastOrigin)j.Row.Past, j.Row.FollowsId), j.Row.StartedAt, j.Row.ClosedAt!.Value));
    }

    /// <summary>Engines of one card, and the card. Each thing that they need is asked for once, for all of them.</summary>
    public async Task<(IReadOnlyList<EngineToForecast> Engines, Guid Card)> EnginesAsync(IReadOnlyList<Guid> ids, CancellationToken cancel)
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

    /// <summary>What the card's engines said of their rates when they were worked out last.</summary>
    private async Task<Dictionary<Guid, SideEvidence>> EvidenceAsync(Guid card, CancellationToken cancel)
    {
        var all = await context.Forecasts.AsNoTracking().Where(f => context.Engines.Any(e => e.Id == f.EngineId && e.CardId == card))
            .Select(f => new { f.EngineId, f.IntakeEvidence, f.ExhaustEvidence }).ToListAsync(cancel);
        return all.ToDictionary(o => o.EngineId, o => ForecastRows.Evidence(o.IntakeEvidence, o.ExhaustEvidence));
    }
}
