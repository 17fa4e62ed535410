using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Due;

/// <summary>
/// Works out the forecasts of engines of one card: what each says of its rates, the rates of all of them together, and with
/// those each engine's risk.
/// </summary>
public static class Forecaster
{
    private const int MarkLength = 16;

    /// <summary>Which edition of the rules works forecasts out; those that another edition left are worked out anew.</summary>
    private const int ModelEdition = 3;

    /// <summary>Tells what a forecast rests on besides its engine from what it rested on before: the rules, the usual wear and the settings.</summary>
    /// <param name="settings">The settings.</param>
    /// <returns>A mark.</returns>
    /// <exception cref="ArgumentNullException">There are no settings.</exception>
    public static string MarkOf(BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        string matters = string.Create(
            CultureInfo.InvariantCulture,
            $"{ModelEdition} {WearCard.UsualLoss} {WearCard.UsualSpread} {settings.ForJob(new Dictionary<string, double> { ["lift"] = settings.Lift }).ToJson()}");
        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(matters)))[..MarkLength];
    }

    /// <summary>Works out engines of one card.</summary>
    /// <param name="engines">The engines.</param>
    /// <param name="others">What the card's other engines said of their rates when they were worked out last.</param>
    /// <param name="known">The card's rates so far.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>The forecasts, and the card's rates now.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static CardForecasts Of(IReadOnlyList<EngineToForecast> engines, IReadOnlyList<SideEvidence> others, CardRates known, BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(engines);
        ArgumentNullException.ThrowIfNull(others);
        ArgumentNullException.ThrowIfNull(known);
        ArgumentNullException.ThrowIfNull(settings);
        Work[] works = [.. engines.Select(e => Begin(e, settings))];
        CardRates rates = RatesOf(works, others, known);
        string mark = MarkOf(settings);
        return new(rates, [.. works.Select(w => Finish(w, rates, mark, settings))]);
    }

    /// <summary>Works out one engine with its card's rates as they are.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="rates">The card's rates.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>The forecast.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static WorkedForecast Of(EngineToForecast engine, CardRates rates, BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(rates);
        ArgumentNullException.ThrowIfNull(settings);
        return Finish(Begin(engine, settings), rates, MarkOf(settings), settings);
    }

    /// <summary>Works out engines of several cards in the background, some at once: the same forecasts.</summary>
    /// <param name="cards">The engines, card by card.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <param name="pace">How hard they are worked at.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The forecasts and the rates of each card, in the same order.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static async Task<IReadOnlyList<CardForecasts>> AtAsync(IReadOnlyList<CardToForecast> cards, BenchSettings settings, IPace pace, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(cards);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(pace);
        (EngineToForecast Engine, int Card)[] engines = [.. cards.Index().SelectMany(c => c.Item.Engines.Select(e => (e, c.Index)))];
        (Work Work, int Card)[] works = await EachAsync(engines, e => (Begin(e.Engine, settings), e.Card), pace, cancel);
        ILookup<int, Work> byCard = works.ToLookup(w => w.Card, w => w.Work);
        CardRates[] rates = [.. cards.Select((c, i) => RatesOf([.. byCard[i]], c.Others, c.Known))];
        string mark = MarkOf(settings);
        (WorkedForecast Forecast, int Card)[] done = await EachAsync(works, w => (Finish(w.Work, rates[w.Card], mark, settings), w.Card), pace, cancel);
        ILookup<int, WorkedForecast> forecasts = done.ToLookup(d => d.Card, d => d.Forecast);
        return [.. rates.Select((r, i) => new CardForecasts(r, [.. forecasts[i]]))];
    }

    /// <summary>The outlook of an engine with the rates that are held.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="rates">Its card's rates.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>The outlook; null where nothing can be said.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static StoredOutlook? Outlook(EngineToForecast engine, CardRates rates, BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(rates);
        return OutlookOf(engine, settings) is { } outlook
            ? new(outlook, rates.Taught.On(outlook.Card), rates.Taught is not { Intake: null, Exhaust: null })
            : null;
    }

    private static async Task<TTo[]> EachAsync<TFrom, TTo>(IReadOnlyList<TFrom> from, Func<TFrom, TTo> work, IPace pace, CancellationToken cancel)
    {
        TTo[] to = new TTo[from.Count];
        ParallelOptions options = new() { MaxDegreeOfParallelism = pace.AtOnce, CancellationToken = cancel };
        await Parallel.ForAsync(0, to.Length, options, async (i, stop) => to[i] = await pace.DoAsync(() => work(from[i]), stop));
        return to;
    }

    private static CardRates RatesOf(Work[] works, IReadOnlyList<SideEvidence> others, CardRates known) =>
        CardPool.Of([.. works.Where(w => w.Engine.Teaches).Select(w => w.Evidence)], others, known, works.Select(w => w.Outlook).OfType<EngineOutlook>().FirstOrDefault()?.Card);

    private static EngineOutlook? OutlookOf(EngineToForecast engine, BenchSettings settings) =>
        EngineOutlook.Of(engine.Card, engine.Past.Jobs, settings, engine.Details.ThinnestShim);

    private static Work Begin(EngineToForecast engine, BenchSettings settings)
    {
        EngineOutlook? outlook = OutlookOf(engine, settings);
        return new(engine, outlook, new(Evidence(outlook, ValveSide.Intake), Evidence(outlook, ValveSide.Exhaust)));
    }

    private static IReadOnlyList<RateEvidence> Evidence(EngineOutlook? outlook, ValveSide side) =>
        outlook is null ? [] : PooledRates.EvidenceOf(outlook.Job.AllChecks, side, outlook.Card);

    private static WorkedForecast Finish(Work work, CardRates rates, string mark, BenchSettings settings)
    {
        EngineToForecast engine = work.Engine;
        ForecastBasis basis = new(engine.Changes, engine.CardVersion, rates.Version, mark);
        ClockSeen last = engine.Past.Seen.OrderBy(s => s.Clock).ThenBy(s => s.At).LastOrDefault();
        EngineUsage usage = EngineUsage.Of(engine.PerWeek, engine.Past.Seen);
        KeptForecast forecast = new(
            0, last.Clock, null, engine.Card.Wear is { CountsKilometres: true }, last with { At = DateTime.SpecifyKind(last.At, DateTimeKind.Utc) }, usage, null, settings.Risk, []);
        if (work.Outlook is not { } outlook)
        {
            IReadOnlyList<WrittenCheck> history = EngineHistory.Of(engine.Card, engine.Past.Jobs);
            return new(
                engine.Id, basis, forecast with { Checks = EngineHistory.Times(history), Clock = EngineHistory.LastClock(history) ?? last.Clock },
                ShimOutlook.None, work.Evidence);
        }

        UsualWear usual = rates.Taught.On(outlook.Card);
        EngineWear wear = outlook.ToWear(usual);
        EngineForecast risk = EngineForecast.Of(wear, outlook.Job.Risk);
        return new(
            engine.Id, basis,
            forecast with
            {
                Checks = outlook.Checks,
                Clock = outlook.Clock,
                CheckBy = risk.CheckBy,
                // Where the risk is there already it is due since that check, however much it is used.
                DueAt = risk.CheckBy <= risk.Clock ? forecast.Last.At : usage.DayOf(risk.CheckBy, last),
                Curve = EngineOutlook.Curve(risk, usual.Interval),
            },
            ShimOutlook.Of(outlook, wear, AccessTimes.Of(engine.Card, engine.Details.AccessMinutes, settings), settings), work.Evidence);
    }

    private sealed record Work(EngineToForecast Engine, EngineOutlook? Outlook, SideEvidence Evidence);
}
