using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Texts;
using Shimwright.Domain.Drawer;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Settings;

namespace Shimwright.Bench.Orders;

/// <summary>What of a card decides whether its engines are counted.</summary>
/// <param name="Diameter">Diameter of the shims, whole micrometres; null where it is not known.</param>
/// <param name="HasShims">Whether it has shims.</param>
/// <param name="HasWear">Whether it says what wear is usual.</param>
public readonly record struct FleetCard(int? Diameter, bool HasShims, bool HasWear)
{
    /// <summary>Looks at a card.</summary>
    /// <param name="card">The card.</param>
    /// <param name="details">What a job file has no place for.</param>
    /// <returns>What decides.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static FleetCard Of(EngineCard card, CardDetails details)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(details);
        return new(details.ShimDiameter is { } d ? ShimSize.Micrometres(d) : null, card.Engine.Valvetrain.HasShims, card.Wear is not null);
    }
}

/// <summary>An engine of the bench with its forecast.</summary>
/// <param name="Id">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="Changes">Counts what its forecast rests on.</param>
/// <param name="Card">Its card.</param>
/// <param name="Forecast">The forecast that is kept, or null; one of no checks where every job was opened again.</param>
/// <param name="Valves">Finds the engine's valves as the last check left them; null where they were not kept yet.</param>
public sealed record FleetEngine(Guid Id, string Name, int Changes, FleetCard Card, KeptForecast? Forecast, Func<ShimOutlook>? Valves);

/// <summary>Sorts the engines of a bench into those that are counted and those that are not, and says what to order for them.</summary>
public sealed class Fleet
{
    private const double DaysAWeek = 7;

    private readonly DateTime _now;
    private readonly DateTime _until;
    private readonly List<(CountedEngine Engine, IReadOnlyList<ThicknessWant> Wants)> _due = [];
    private readonly List<NotCountedEngine> _notCounted = [];
    private int _later;
    private int _withoutShims;

    private Fleet(DateTime now, DateTime until)
    {
        _now = now;
        _until = until;
    }

    /// <summary>What to order.</summary>
    /// <param name="engines">The engines of the bench, in any order.</param>
    /// <param name="lots">What lies in the drawer.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <param name="serviceLevel">How often a size should be there when it is wanted, 0 to 1; null for the bench's.</param>
    /// <param name="now">The time, UTC.</param>
    /// <param name="horizon">How far ahead, counted from today; null for <see cref="IOrders.UsualHorizon"/>.</param>
    /// <returns>The orders of each diameter, and the engines behind them.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The horizon lies in the past.</exception>
    public static FleetOrders OrdersFor(
        IEnumerable<FleetEngine> engines, IReadOnlyList<ShimLot> lots, BenchSettings settings, double? serviceLevel, DateTime now, TimeSpan? horizon)
    {
        ArgumentNullException.ThrowIfNull(lots);
        ArgumentNullException.ThrowIfNull(settings);
        TimeSpan ahead = horizon ?? IOrders.UsualHorizon;
        ArgumentOutOfRangeException.ThrowIfLessThan(ahead, TimeSpan.Zero, nameof(horizon));
        double level = serviceLevel ?? settings.ServiceLevel;
        var fleet = new Fleet(now, now.Date + ahead);
        // Those due first stand at the head; of those without a day, by name.
        foreach (FleetEngine engine in engines.OrderBy(e => e.Forecast?.DueAt).ThenBy(e => SearchText.Of(e.Name), SearchText.Order).ThenBy(e => e.Id))
        {
            fleet.Add(engine);
        }

        return new(
            now, fleet._until, level,
            [.. fleet._due.GroupBy(d => d.Engine.Diameter).OrderBy(g => g.Key).Select(g => OrdersOf(g.Key, [.. g.Select(d => d.Wants)], lots, settings, level))],
            [.. fleet._due.Select(d => d.Engine)], fleet._notCounted, fleet._later, fleet._withoutShims);
    }

    /// <summary>The orders of one diameter: sizes that can be bought, and what lies in the drawer nearest to each.</summary>
    private static DiameterOrders OrdersOf(
        int diameter, IReadOnlyList<IReadOnlyList<ThicknessWant>> engines, IReadOnlyList<ShimLot> lots, BenchSettings settings, double level)
    {
        ShimLot[] own = [.. lots.Where(l => l.Size.Diameter == diameter && l.Free > 0)];
        SizeGrid grid = SizeGrid.Of(settings.SizesToBuy, own);
        FleetDemand demand = FleetDemand.Of(engines, grid.Sizes);
        return new(diameter, OrderList.For(demand.Sizes, grid.FreeOf, grid.PriceOf, level), demand, [.. engines.SelectMany(e => e)], engines.Count);
    }

    private void Add(FleetEngine engine)
    {
        if (!engine.Card.HasShims)
        {
            _withoutShims++;
        }
        else if (engine.Forecast is not { Checks: > 0 } forecast)
        {
            _notCounted.Add(new(engine.Id, engine.Name, engine.Changes > 0 && engine.Forecast is null ? NotCountedReason.NotReady : NotCountedReason.NotChecked));
        }
        else if (forecast.DueAt is { } due && due > _until)
        {
            _later++;
        }
        else if (Missing(forecast, engine) is { } reason)
        {
            _notCounted.Add(new(engine.Id, engine.Name, reason));
        }
        else
        {
            AddDue(engine, forecast, engine.Valves!());
        }
    }

    private void AddDue(FleetEngine engine, KeptForecast forecast, ShimOutlook valves)
    {
        IReadOnlyList<ThicknessWant> wants = valves.WantsAfter(CheckClock(forecast) - forecast.Clock);
        if (wants.Count == 0)
        {
            _notCounted.Add(new(engine.Id, engine.Name, NotCountedReason.NoShims));
            return;
        }

        _due.Add((new(engine.Id, engine.Name, forecast.DueAt!.Value, engine.Card.Diameter!.Value, wants.Sum(w => w.Wanted), valves.Unknown), wants));
    }

    private static NotCountedReason? Missing(KeptForecast forecast, FleetEngine engine) =>
        !engine.Card.HasWear ? NotCountedReason.NoWear
        : engine.Valves is null || forecast.CheckBy is null ? NotCountedReason.NotReady
        : forecast.DueAt is null ? NotCountedReason.NoUsage
        : engine.Card.Diameter is null ? NotCountedReason.NoDiameter
        : null;

    /// <summary>The clock at which the engine will be checked: when it is due, or now where that is past.</summary>
    private double CheckClock(KeptForecast forecast)
    {
        double due = Math.Max(forecast.Clock, forecast.CheckBy!.Value);
        return forecast.Usage.PerWeek is { } week
            ? Math.Max(due, forecast.Last.Clock + (week * Math.Max(0, (_now - forecast.Last.At).TotalDays) / DaysAWeek * (forecast.DueAt < _now ? 1 : 0)))
            : due;
    }
}
