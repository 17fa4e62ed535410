using Shimwright.Bench;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Files;

/// <summary>Whether engines count hours or kilometres: each card is read once.</summary>
internal sealed class ClockUnits(IBench bench, CancellationToken cancel)
{
    private readonly Dictionary<Guid, string?> _ofCard = [];
    private readonly Dictionary<Guid, Guid> _cardOf = [];

    /// <summary>All engines, those in use first, and whether each is in use.</summary>
    public async Task<IReadOnlyList<(EngineSummary Engine, bool IsInUse)>> EnginesAsync()
    {
        (EngineSummary Engine, bool IsInUse)[] all =
        [
            .. (await bench.Engines.ListAsync(null, 0, BenchLists.MostRows, cancel)).Select(e => (e, true)),
            .. (await bench.Engines.RetiredAsync(null, 0, BenchLists.MostRows, cancel)).Select(e => (e, false)),
        ];
        foreach ((EngineSummary engine, _) in all)
        {
            _cardOf[engine.Id] = engine.CardId;
            if (!_ofCard.ContainsKey(engine.CardId))
            {
                _ofCard[engine.CardId] = await bench.Engines.FindAsync(engine.Id, cancel) is { } found ? ClockStyle.KeptUnit(found.Card.Wear) : null;
            }
        }

        return all;
    }

    /// <summary>The unit of an engine's clock; null where there is no such engine.</summary>
    public string? Of(Guid engine) => _cardOf.TryGetValue(engine, out Guid card) ? _ofCard[card] : null;
}
