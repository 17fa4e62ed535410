using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Engines;

namespace Shimwright.Storage.Due;

/// <summary>
/// Works out the forecasts of engines of one card: what each says of its rates, the rates of all of them together, and with
/// those each engine's risk.
/// </summary>
internal sealed class Forecaster(BenchContext context, PastReader past, BenchSettings settings)
{
    /// <summary>Rates that move by less than this share of the card's spread leave the other engines' forecasts as they are.</summary>
    private const double Noticed = 0.1;

    private readonly string _mark = MarkOf(settings);

    /// <summary>Tells settings that a forecast rests on from others.</summary>
    public static string MarkOf(BenchSettings settings) => Convert.ToHexString(
        SHA256.HashData(Encoding.UTF8.GetBytes(settings.ForJob(new Dictionary<string, double> { ["lift"] = settings.Lift }).ToJsonString())))[..16];

    /// <summary>Works out engines of one card and keeps what comes out.</summary>
    public async Task RefreshAsync(IReadOnlyList<Guid> engines, CancellationToken cancel)
    {
        List<Work> works = [];
        foreach (Guid id in engines)
        {
            if (await BeginAsync(id, cancel) is { } work)
            {
                works.Add(work);
            }
        }

        if (works.Count == 0)
        {
            return;
        }

        CardRatesRow rates = await PoolAsync(works[0].Engine.CardId, works, cancel);
        foreach (Work work in works)
        {
            Finish(work, rates);
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
    public async Task<StoredOutlook?> OutlookAsync(Guid engineId, CancellationToken cancel)
    {
        if (await BeginAsync(engineId, cancel) is not { Outlook: { } outlook } work)
        {
            return null;
        }

        CardRatesRow? row = await context.CardRates.AsNoTracking().FirstOrDefaultAsync(r => r.CardId == work.Engine.CardId, cancel);
        TaughtRates taught = row is null ? new(null, null) : Taught(row);
        return new(outlook, taught.On(outlook.Card), taught is not { Intake: null, Exhaust: null });
    }

    /// <summary>What was kept; null where every job of the engine was opened again.</summary>
    public static KeptForecast? Kept(KeptForecastRow? f) => f is null or { Checks: 0 } ? null : new(
        f.Checks, f.Clock, f.CheckBy, f.CountsKilometres, new(f.LastClock, f.LastAt), new(f.PerWeek, (UsageSource)f.Usage), f.DueAt, f.Risk,
        [.. Numbers(f.Curve).Chunk(2).Select(p => new RiskPoint(p[0], p[1]))]);

    private async Task<Work?> BeginAsync(Guid id, CancellationToken cancel)
    {
        EngineRow? engine = await context.Engines.AsNoTracking().Include(e => e.Card).FirstOrDefaultAsync(e => e.Id == id, cancel);
        if (engine is null)
        {
            return null;
        }

        EnginePast its = await past.OfAsync(context, id, cancel);
        EngineCard card = EngineCard.Read(engine.Card.Card).Card
            ?? throw new InvalidOperationException("A card that was kept can no longer be read.");
        CardDetails details = EngineStore.ReadDetails(engine.Card.Details);
        EngineOutlook? outlook = EngineOutlook.Of(card, its.Jobs, settings, details.ThinnestShim);
        return new(engine, its, card, details, outlook, Evidence(outlook, ValveSide.Intake), Evidence(outlook, ValveSide.Exhaust));
    }

    private static IReadOnlyList<RateEvidence> Evidence(EngineOutlook? outlook, ValveSide side) =>
        outlook is null ? [] : PooledRates.EvidenceOf(outlook.Job.AllChecks, side, outlook.Card);

    /// <summary>The rates of the card with these engines as they are now and the others as they were kept.</summary>
    private async Task<CardRatesRow> PoolAsync(Guid cardId, IReadOnlyList<Work> works, CancellationToken cancel)
    {
        Guid[] now = [.. works.Select(w => w.Engine.Id)];
        var others = await context.Forecasts.AsNoTracking()
            .Where(f => !now.Contains(f.EngineId) && context.Engines.Any(e => e.Id == f.EngineId && e.CardId == cardId))
            .Select(f => new { f.IntakeEvidence, f.ExhaustEvidence }).ToListAsync(cancel);
        RateDistribution? intake = PooledRates.Of([.. works.Select(w => w.Intake), .. others.Select(o => Rates(o.IntakeEvidence))]);
        RateDistribution? exhaust = PooledRates.Of([.. works.Select(w => w.Exhaust), .. others.Select(o => Rates(o.ExhaustEvidence))]);
        CardRatesRow? row = await context.CardRates.FirstOrDefaultAsync(r => r.CardId == cardId, cancel);
        if (row is null)
        {
            row = new CardRatesRow { CardId = cardId };
            if (intake is null && exhaust is null)
            {
                return row;
            }

            context.CardRates.Add(row);
        }

        double unit = works.Select(w => w.Outlook).OfType<EngineOutlook>().FirstOrDefault()?.Card is { } card
            ? Math.Max(card.RateOf(ValveSide.Intake).StandardDeviation, 1e-12)
            : double.PositiveInfinity;
        if (Moved(row.IntakeMean, intake?.Mean, unit) || Moved(row.IntakeSpread, intake?.StandardDeviation, unit)
            || Moved(row.ExhaustMean, exhaust?.Mean, unit) || Moved(row.ExhaustSpread, exhaust?.StandardDeviation, unit))
        {
            row.Version++;
            row.IntakeMean = intake?.Mean;
            row.IntakeSpread = intake?.StandardDeviation;
            row.ExhaustMean = exhaust?.Mean;
            row.ExhaustSpread = exhaust?.StandardDeviation;
        }

        return row;
    }

    private static bool Moved(double? before, double? now, double unit) =>
        before is { } b && now is { } n ? Math.Abs(b - n) > Noticed * unit : before is null != now is null;

    private void Finish(Work work, CardRatesRow rates)
    {
        KeptForecastRow row = context.Forecasts.Find(work.Engine.Id) ?? context.Forecasts.Add(new KeptForecastRow { EngineId = work.Engine.Id }).Entity;
        row.Changes = work.Engine.Changes;
        row.CardVersion = work.Engine.Card.Version;
        row.RatesVersion = rates.Version;
        row.SettingsMark = _mark;
        row.CountsKilometres = work.Card.Wear is { CountsKilometres: true };
        row.Risk = settings.Risk;
        row.IntakeEvidence = Text(work.Intake);
        row.ExhaustEvidence = Text(work.Exhaust);
        ClockSeen last = work.Past.Seen.OrderBy(s => s.Clock).ThenBy(s => s.At).LastOrDefault();
        EngineUsage usage = EngineUsage.Of(work.Engine.UsagePerWeek, work.Past.Seen);
        row.LastClock = last.Clock;
        row.LastAt = DateTime.SpecifyKind(last.At, DateTimeKind.Utc);
        row.PerWeek = usage.PerWeek;
        row.Usage = (int)usage.Source;
        JsonArray history = work.Outlook is null ? EngineHistory.Of(work.Card, work.Past.Jobs) : [];
        row.Checks = work.Outlook?.Checks ?? EngineHistory.Times(history);
        row.Clock = work.Outlook?.Clock ?? EngineHistory.LastClock(history) ?? last.Clock;
        row.CheckBy = null;
        row.DueAt = null;
        row.Curve = "[]";
        row.Valves = ShimOutlook.None.Write();
        if (work.Outlook is { } outlook)
        {
            UsualWear usual = Taught(rates).On(outlook.Card);
            EngineWear wear = outlook.Job.ToEngineWear(usual);
            EngineForecast forecast = EngineForecast.Of(wear, outlook.Job.Risk);
            row.CheckBy = forecast.CheckBy;
            // Where the risk is there already it is due since that check, however much it is used.
            row.DueAt = forecast.CheckBy <= forecast.Clock ? row.LastAt : usage.DayOf(forecast.CheckBy, last);
            row.Curve = JsonSerializer.Serialize(EngineOutlook.Curve(forecast, usual.Interval).SelectMany(p => new[] { p.Clock, p.Risk }));
            row.Valves = ShimOutlook.Of(outlook, wear, AccessTimes.Of(work.Card, work.Details.AccessMinutes, settings), settings).Write();
        }
    }

    private static TaughtRates Taught(CardRatesRow row) => new(
        row is { IntakeMean: { } im, IntakeSpread: { } @is } ? new RateDistribution(im, @is) : null,
        row is { ExhaustMean: { } em, ExhaustSpread: { } es } ? new RateDistribution(em, es) : null);

    private static string Text(IReadOnlyList<RateEvidence> evidence) => JsonSerializer.Serialize(evidence.SelectMany(e => new[] { e.Rate, e.Uncertainty }));

    private static IReadOnlyList<RateEvidence> Rates(string json) => [.. Numbers(json).Chunk(2).Select(p => new RateEvidence(p[0], p[1]))];

    private static double[] Numbers(string json) => JsonSerializer.Deserialize<double[]>(json) ?? [];

    private sealed record Work(
        EngineRow Engine, EnginePast Past, EngineCard Card, CardDetails Details, EngineOutlook? Outlook, IReadOnlyList<RateEvidence> Intake, IReadOnlyList<RateEvidence> Exhaust);
}
