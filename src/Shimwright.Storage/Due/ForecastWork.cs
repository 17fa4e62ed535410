using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Due;

/// <summary>Loads what forecasts are worked out from, and keeps what comes out.</summary>
internal sealed class ForecastWork(BenchContext context, SheetReader sheets, BenchSettings settings)
{
    /// <summary>Works out engines of one card.</summary>
    public async Task RefreshAsync(IReadOnlyList<Guid> engines, CancellationToken cancel)
    {
        List<(EngineToForecast Engine, Guid Card)> known = [];
        foreach (Guid id in engines)
        {
            if (await EngineAsync(id, cancel) is { } engine)
            {
                known.Add(engine);
            }
        }

        if (known.Count == 0)
        {
            return;
        }

        CardRatesRow? row = await context.CardRates.FirstOrDefaultAsync(r => r.CardId == known[0].Card, cancel);
        CardRates before = ForecastRows.Read(row);
        CardForecasts worked = Forecaster.Of(
            [.. known.Select(k => k.Engine)], await OthersAsync(known[0].Card, [.. known.Select(k => k.Engine.Id)], cancel), before, settings);
        if (worked.Rates.Version != before.Version)
        {
            ForecastRows.Write(worked.Rates, row ?? context.CardRates.Add(new() { CardId = known[0].Card }).Entity);
        }

        foreach (WorkedForecast forecast in worked.Forecasts)
        {
            ForecastRows.Write(
                forecast, await context.Forecasts.FindAsync([forecast.Engine], cancel) ?? context.Forecasts.Add(new() { EngineId = forecast.Engine }).Entity);
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
        await EngineAsync(engineId, cancel) is { } known
            ? Forecaster.Outlook(
                known.Engine, ForecastRows.Read(await context.CardRates.AsNoTracking().FirstOrDefaultAsync(r => r.CardId == known.Card, cancel)), settings)
            : null;

    /// <summary>An engine's closed jobs.</summary>
    public static async Task<EnginePast> PastAsync(BenchContext context, SheetReader sheets, Guid engineId, CancellationToken cancel)
    {
        List<JobRow> rows = await context.Jobs.AsNoTracking().Where(j => j.EngineId == engineId && j.ClosedAt != null && j.DiscardedAt == null).ToListAsync(cancel);
        return EnginePast.Of((await sheets.OfAllAsync(context, rows, cancel)).Select(j => Closed(j.Row, j.Sheet)));
    }

    private static ClosedJob Closed(JobRow row, JobSheet sheet) =>
        new(new(row.Id, sheet, (PastOrigin)row.Past, row.FollowsId), row.StartedAt, row.ClosedAt!.Value);

    private async Task<(EngineToForecast Engine, Guid Card)?> EngineAsync(Guid id, CancellationToken cancel)
    {
        EngineRow? engine = await context.Engines.AsNoTracking().Include(e => e.Card).FirstOrDefaultAsync(e => e.Id == id, cancel);
        if (engine is null)
        {
            return null;
        }

        EngineCard card = EngineCard.Read(engine.Card.Card).Card
            ?? throw new InvalidOperationException("A card that was kept can no longer be read.");
        return (new(
            id, engine.Changes, engine.Card.Version, card, CardDetails.Read(engine.Card.Details), engine.UsagePerWeek,
            await PastAsync(context, sheets, id, cancel)), engine.CardId);
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
