using System.Buffers.Binary;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Due;

/// <summary>Loads what forecasts are worked out from, and keeps what comes out.</summary>
internal sealed class ForecastWork(BenchContext context, SheetReader sheets, BenchSettings settings)
{
    /// <summary>The most engines that a card's rates are worked out from.</summary>
    public int MostTeachers { get; init; } = CardPool.MostEngines;

    /// <summary>Works out engines.</summary>
    /// <returns>Whether what came of it is kept.</returns>
    public async Task<bool> RefreshAsync(IReadOnlyList<Guid> engines, CancellationToken cancel) =>
        await RefreshAsync(await EnginesAsync(engines, cancel), [], Paces.Steady, cancel);

    /// <summary>Works out engines that were loaded, as <see cref="EnginesAsync"/> loads them.</summary>
    /// <param name="engines">The engines, by their cards.</param>
    /// <param name="said">What engines of cards say of their rates: a card's are asked for where they are missing, and kept up to date.</param>
    /// <param name="pace">How hard they are worked at.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether what came of it is kept.</returns>
    public async Task<bool> RefreshAsync(ILookup<Guid, EngineToForecast> engines, Dictionary<Guid, Dictionary<Guid, SideEvidence>> said, IPace pace, CancellationToken cancel)
    {
        Guid[] cards = [.. engines.Select(card => card.Key)], now = [.. engines.SelectMany(card => card).Select(e => e.Id)];
        await AskAsync([.. cards.Where(c => !said.ContainsKey(c))], said, cancel);
        Dictionary<Guid, CardRatesRow> rates = await context.CardRates.Where(r => cards.Contains(r.CardId)).ToDictionaryAsync(r => r.CardId, cancel);
        CardToForecast[] todo = [.. engines.Select(card => new CardToForecast(
            [.. card.Select(e => e with { Teaches = HasPlace(said[card.Key], e.Id) })], OthersOf(said[card.Key], [.. card.Select(e => e.Id)]), ForecastRows.Read(rates.GetValueOrDefault(card.Key))))];
        IReadOnlyList<CardForecasts> worked = await Forecaster.AtAsync(todo, settings, pace, cancel);
        Dictionary<Guid, KeptForecastRow> kept = await context.Forecasts.Where(f => now.Contains(f.EngineId)).ToDictionaryAsync(f => f.EngineId, cancel);
        foreach ((Guid card, CardToForecast before, CardForecasts after) in cards.Zip(todo, worked))
        {
            if (after.Rates.Version != before.Known.Version)
            {
                ForecastRows.Write(after.Rates, rates.GetValueOrDefault(card) ?? context.CardRates.Add(new() { CardId = card }).Entity);
            }

            foreach (WorkedForecast forecast in after.Forecasts)
            {
                if (forecast.Evidence.SaysNothing)
                {
                    said[card].Remove(forecast.Engine);
                }
                else if (HasPlace(said[card], forecast.Engine))
                {
                    said[card][forecast.Engine] = forecast.Evidence;
                }

                ForecastRows.Write(forecast, kept.GetValueOrDefault(forecast.Engine) ?? context.Forecasts.Add(new() { EngineId = forecast.Engine }).Entity);
            }
        }

        try
        {
            await context.SaveChangesAsync(cancel);
            return true;
        }
        catch (DbUpdateException e) when (DatabaseAway.Why(e) is null)
        {
            // Another view of the bench kept the same forecast or the card's rates first; what that leaves out is stale and comes next.
            context.ChangeTracker.Clear();
            return false;
        }
    }

    /// <summary>The outlook of an engine with the rates that are kept.</summary>
    public async Task<StoredOutlook?> OutlookAsync(Guid engineId, CancellationToken cancel) =>
        await WithRatesAsync(engineId, cancel) is var (engine, rates) ? Forecaster.Outlook(engine, rates, settings) : null;

    /// <summary>The forecast of an engine with the rates that are kept; nothing is kept of it.</summary>
    public async Task<KeptForecast?> LookAsync(Guid engineId, CancellationToken cancel) =>
        await WithRatesAsync(engineId, cancel) is var (engine, rates) ? Forecaster.Of(engine, rates, settings).Shown : null;

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

    /// <summary>Engines by their cards. Each thing that they need is asked for once, for all of them.</summary>
    public async Task<ILookup<Guid, EngineToForecast>> EnginesAsync(IReadOnlyList<Guid> ids, CancellationToken cancel)
    {
        List<EngineRow> rows = await context.Engines.AsNoTracking().Where(e => ids.Contains(e.Id)).OrderBy(e => e.CardId).ThenBy(e => e.Id).ToListAsync(cancel);
        Guid[] cardIds = [.. rows.Select(r => r.CardId).Distinct()], known = [.. rows.Select(r => r.Id)];
        List<CardRow> cardRows = await context.Cards.AsNoTracking().Where(c => cardIds.Contains(c.Id)).ToListAsync(cancel);
        var cards = cardRows.ToDictionary(c => c.Id, c => (
            c.Version, Card: EngineCard.Read(c.Card).Card ?? throw new InvalidOperationException("A card that was kept can no longer be read."), Details: CardDetails.Read(c.Details)));
        ILookup<Guid, ClosedJob> closed = await ClosedAsync(context, sheets, known, cancel);
        return rows.ToLookup(e => e.CardId, e => new EngineToForecast(
            e.Id, e.Changes, cards[e.CardId].Version, cards[e.CardId].Card, cards[e.CardId].Details, e.UsagePerWeek, EnginePast.Of(closed[e.Id])));
    }

    private async Task<(EngineToForecast Engine, CardRates Rates)?> WithRatesAsync(Guid engineId, CancellationToken cancel) =>
        (await EnginesAsync([engineId], cancel)).SingleOrDefault() is { } card
            ? (card.Single(), ForecastRows.Read(await context.CardRates.AsNoTracking().FirstOrDefaultAsync(r => r.CardId == card.Key, cancel)))
            : null;

    private static IReadOnlyList<SideEvidence> OthersOf(Dictionary<Guid, SideEvidence> all, IReadOnlyList<Guid> now) =>
        [.. all.Where(e => !now.Contains(e.Key)).OrderBy(e => e.Key).Select(e => e.Value)];

    /// <summary>Asks what the engines of cards said of their rates when they were worked out last.</summary>
    private async Task AskAsync(IReadOnlyList<Guid> cards, Dictionary<Guid, Dictionary<Guid, SideEvidence>> said, CancellationToken cancel)
    {
        if (cards.Count == 0)
        {
            return;
        }

        // From the card's engines on: there may be thousands of others. Evidence is read for those that are drawn only, since it comes last in a long row.
        ILookup<Guid, Guid> all = (await context.Engines.AsNoTracking().Where(e => cards.Contains(e.CardId))
            .Join(context.Forecasts.Where(f => f.Checks > PooledRates.LeastIntervals), e => e.Id, f => f.EngineId, (e, f) => new { e.CardId, f.EngineId })
            .ToListAsync(cancel)).ToLookup(o => o.CardId, o => o.EngineId);
        Dictionary<Guid, Guid[]> taken = cards.ToDictionary(c => c, c => Drawn([.. all[c]]));
        Guid[] asked = [.. taken.Values.SelectMany(t => t)];
        Dictionary<Guid, SideEvidence> answers = asked.Length == 0 ? [] : (await context.Forecasts.AsNoTracking().Where(f => asked.Contains(f.EngineId))
            .Select(f => new { f.EngineId, f.IntakeEvidence, f.ExhaustEvidence }).ToListAsync(cancel))
            .ToDictionary(o => o.EngineId, o => ForecastRows.Evidence(o.IntakeEvidence, o.ExhaustEvidence));
        foreach (Guid card in cards)
        {
            said[card] = taken[card].Where(answers.ContainsKey).ToDictionary(e => e, e => answers[e]);
        }
    }

    /// <summary>By lot, that is by a checksum of their ids: who was drawn stays drawn, but for a few, when the fleet grows.</summary>
    private Guid[] Drawn(Guid[] engines) => engines.Length <= MostTeachers
        ? engines
        : [.. engines.OrderBy(e => BinaryPrimitives.ReadUInt64LittleEndian(SHA256.HashData(e.ToByteArray()))).Take(MostTeachers)];

    private bool HasPlace(Dictionary<Guid, SideEvidence> said, Guid engine) => said.Count < MostTeachers || said.ContainsKey(engine);
}
