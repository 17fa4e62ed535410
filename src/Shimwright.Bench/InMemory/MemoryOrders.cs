using Shimwright.Bench.Orders;

namespace Shimwright.Bench.InMemory;

/// <summary>The orders of a bench in memory.</summary>
internal sealed class MemoryOrders(MemoryState state) : IOrders
{
    private readonly MemoryDrawer _drawer = new(state);

    /// <inheritdoc/>
    public Task<FleetOrders> ListAsync(TimeSpan? horizon = null, double? serviceLevel = null, CancellationToken cancel = default) => state.DoAsync(
        () => Fleet.OrdersFor(state.Engines.Values.Where(e => e.Row.RetiredAt is null).Select(InFleet), _drawer.Lots(), state.Settings, serviceLevel, state.Now, horizon), cancel);

    private FleetEngine InFleet(MemoryEngine engine)
    {
        MemoryCard card = state.Cards[engine.Row.CardId];
        return new(
            engine.Row.Id, engine.Row.Name, engine.Row.Changes, FleetCard.Of(card.Card, card.Details), engine.Forecast?.Forecast,
            engine.Forecast is { Valves: var valves } ? () => valves : null);
    }
}
