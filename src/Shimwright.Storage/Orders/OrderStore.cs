using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Settings;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Due;

namespace Shimwright.Storage.Orders;

/// <summary>What shims the engines that come due will want, and what to order so that they are there. Rests on the forecasts that are kept.</summary>
internal sealed class OrderStore : IOrders
{
    private readonly Func<BenchContext> _open;
    private readonly IDrawer _drawer;
    private readonly ISettings _settings;
    private readonly TimeProvider _time;

    internal OrderStore(Func<BenchContext> open, IDrawer drawer, ISettings settings, TimeProvider time)
    {
        _open = open;
        _drawer = drawer;
        _settings = settings;
        _time = time;
    }

    /// <inheritdoc/>
    public async Task<FleetOrders> ListAsync(TimeSpan? horizon = null, double? serviceLevel = null, CancellationToken cancel = default)
    {
        BenchSettings settings = (await _settings.CurrentAsync(cancel)).Settings;
        await using BenchContext context = _open();
        Dictionary<Guid, FleetCard> cards = (await context.Cards.AsNoTracking().Select(c => new { c.Id, c.Card, c.Details }).ToListAsync(cancel))
            .ToDictionary(c => c.Id, c => OfCard(c.Card, c.Details));
        var rows = await context.Engines.AsNoTracking().Where(e => e.RetiredAt == null).LeftJoin(context.Forecasts, e => e.Id, f => f.EngineId, (e, f) => new { Engine = e, Forecast = f }).ToListAsync(cancel);
        IEnumerable<FleetEngine> engines = rows.Select(r => ForecastRows.InFleet(r.Engine, cards[r.Engine.CardId], r.Forecast));
        return Fleet.OrdersFor(engines, await _drawer.LotsAsync(cancel), settings, serviceLevel, _time.GetUtcNow().UtcDateTime, horizon);
    }

    private static FleetCard OfCard(string card, string details) => FleetCard.Of(
        EngineCard.Read(card).Card ?? throw new InvalidOperationException("A card that was kept can no longer be read."), CardDetails.Read(details));
}
