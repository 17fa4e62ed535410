using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Settings;
using Shimwright.Domain.Drawer;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Engines;

namespace Shimwright.Storage.Orders;

/// <summary>What shims the engines that come due will want, and what to order so that they are there. Rests on the forecasts that are kept.</summary>
internal sealed class OrderStore : IOrders
{
    private const double DaysAWeek = 7;
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
        TimeSpan ahead = horizon ?? IOrders.UsualHorizon;
        ArgumentOutOfRangeException.ThrowIfLessThan(ahead, TimeSpan.Zero, nameof(horizon));
        BenchSettings settings = (await _settings.CurrentAsync(cancel)).Settings;
        double level = serviceLevel ?? settings.ServiceLevel;
        DateTime now = _time.GetUtcNow().UtcDateTime;
        var fleet = new DueFleet(now, now.Date + ahead);
        await using BenchContext context = _open();
        Dictionary<Guid, (int? Diameter, bool HasShims, bool HasWear)> cards = (await context.Cards.AsNoTracking().Select(c => new { c.Id, c.Card, c.Details }).ToListAsync(cancel))
            .ToDictionary(c => c.Id, c => OfCard(c.Card, c.Details));
        var rows = await context.Engines.AsNoTracking().LeftJoin(context.Forecasts, e => e.Id, f => f.EngineId, (e, f) => new { Engine = e, Forecast = f })
            .OrderBy(r => r.Forecast!.DueAt).ThenBy(r => r.Engine.Search).ThenBy(r => r.Engine.Id).ToListAsync(cancel);
        foreach (var row in rows)
        {
            fleet.Add(row.Engine, row.Forecast, cards[row.Engine.CardId]);
        }

        IReadOnlyList<ShimLot> lots = await _drawer.LotsAsync(cancel);
        return new(
            now, fleet.Until, level,
            [.. fleet.Due.GroupBy(d => d.Engine.Diameter).OrderBy(g => g.Key).Select(g => Orders(g.Key, [.. g.Select(d => d.Wants)], lots, settings, level))],
            [.. fleet.Due.Select(d => d.Engine)], fleet.NotCounted, fleet.Later, fleet.WithoutShims);
    }

    /// <summary>The orders of one diameter: sizes that can be bought, and what lies in the drawer nearest to each.</summary>
    private static DiameterOrders Orders(
        int diameter, IReadOnlyList<IReadOnlyList<ThicknessWant>> engines, IReadOnlyList<ShimLot> lots, BenchSettings settings, double level)
    {
        ShimLot[] own = [.. lots.Where(l => l.Size.Diameter == diameter && l.Free > 0)];
        SizeGrid grid = SizeGrid.Of(settings.SizesToBuy, own);
        FleetDemand demand = FleetDemand.Of(engines, grid.Sizes);
        return new(diameter, OrderList.For(demand.Sizes, grid.FreeOf, grid.PriceOf, level), demand, [.. engines.SelectMany(e => e)], engines.Count);
    }

    private static (int? Diameter, bool HasShims, bool HasWear) OfCard(string card, string details)
    {
        EngineCard read = EngineCard.Read(card).Card ?? throw new InvalidOperationException("A card that was kept can no longer be read.");
        return (EngineStore.ReadDetails(details).ShimDiameter is { } d ? ShimSize.Micrometres(d) : null, read.Engine.Valvetrain.HasShims, read.Wear is not null);
    }

    /// <summary>Sorts the engines of the bench into those that are counted and those that are not.</summary>
    private sealed class DueFleet(DateTime now, DateTime until)
    {
        public DateTime Until => until;

        public List<(CountedEngine Engine, IReadOnlyList<ThicknessWant> Wants)> Due { get; } = [];

        public List<NotCountedEngine> NotCounted { get; } = [];

        public int Later { get; private set; }

        public int WithoutShims { get; private set; }

        public void Add(EngineRow engine, KeptForecastRow? forecast, (int? Diameter, bool HasShims, bool HasWear) card)
        {
            if (!card.HasShims)
            {
                WithoutShims++;
            }
            else if (forecast is null or { Checks: 0 })
            {
                NotCounted.Add(new(engine.Id, engine.Name, engine.Changes > 0 && forecast is null ? NotCountedReason.NotReady : NotCountedReason.NotChecked));
            }
            else if (forecast.DueAt is { } due && due > until)
            {
                Later++;
            }
            else if (Missing(forecast, card) is { } reason)
            {
                NotCounted.Add(new(engine.Id, engine.Name, reason));
            }
            else
            {
                ShimOutlook valves = ShimOutlook.Read(forecast.Valves);
                IReadOnlyList<ThicknessWant> wants = valves.WantsAfter(CheckClock(forecast) - forecast.Clock);
                if (wants.Count == 0)
                {
                    NotCounted.Add(new(engine.Id, engine.Name, NotCountedReason.NoShims));
                    return;
                }

                Due.Add((new(engine.Id, engine.Name, forecast.DueAt!.Value, card.Diameter!.Value, wants.Sum(w => w.Wanted), valves.Unknown), wants));
            }
        }

        private static NotCountedReason? Missing(KeptForecastRow forecast, (int? Diameter, bool HasShims, bool HasWear) card) =>
            !card.HasWear ? NotCountedReason.NoWear
            : forecast.Valves.Length == 0 || forecast.CheckBy is null ? NotCountedReason.NotReady
            : forecast.DueAt is null ? NotCountedReason.NoUsage
            : card.Diameter is null ? NotCountedReason.NoDiameter
            : null;

        /// <summary>The clock at which the engine will be checked: when it is due, or now where that is past.</summary>
        private double CheckClock(KeptForecastRow forecast)
        {
            double due = Math.Max(forecast.Clock, forecast.CheckBy!.Value);
            return forecast.PerWeek is { } week ? Math.Max(due, forecast.LastClock + (week * Math.Max(0, (now - forecast.LastAt).TotalDays) / DaysAWeek * (forecast.DueAt < now ? 1 : 0))) : due;
        }
    }
}
