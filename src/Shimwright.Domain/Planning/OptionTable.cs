using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Planning;

/// <summary>An option that uses up one physical shim.</summary>
/// <param name="Option">The option.</param>
/// <param name="Columns">The physical shims, any of which serves: first column and how many follow.</param>
internal readonly record struct SharedOption(ValveOption Option, (int First, int Count) Columns);

/// <summary>
/// Everything that may be done at each valve. A column is one physical shim: first those in the engine (column v
/// is the shim of valve v), then those of the drawer, as many of one thickness as there are valves at most.
/// </summary>
internal sealed class OptionTable
{
    /// <summary>Thicknesses of the drawer, and of those for sale, that are looked at for one valve: more are hardly ever near enough.</summary>
    public const int MostThicknesses = 400;

    /// <summary>Sums and products for the chance from one grid point, for the re-check alone and for a horizon.</summary>
    private const double PerPoint = 45, PerPointAndHorizon = 300;

    private readonly PlanRequest _request;
    private readonly EngineEstimate _estimate;
    private readonly PurchasableSize[] _sizes;
    private readonly HorizonChances? _staying;
    private readonly OptionChances _chances;
    private readonly Leverage _leverage;
    private double _made;

    /// <param name="request">What is planned from.</param>
    /// <param name="estimate">What is known.</param>
    /// <param name="given">The chances of the estimate before more was read; null where there is none.</param>
    /// <param name="sameShims">A table of a job with the same shims, in the engine and at hand; null where there is none.</param>
    public OptionTable(PlanRequest request, EngineEstimate estimate, GivenCause? given = null, OptionTable? sameShims = null)
    {
        _request = request;
        _estimate = estimate;
        _leverage = Leverage.Of(request.Engine.Valvetrain);
        _staying = request.Horizon is { } horizon ? new HorizonChances(horizon, estimate) : null;
        _chances = new OptionChances(estimate, _staying, given);
        int valves = request.Engine.Valves.Count;
        // A size that is offered twice is bought where it is cheaper.
        _sizes = sameShims?._sizes ?? [.. request.Stock.Sizes.GroupBy(s => s.Thickness).Select(g => g.MinBy(s => s.Price)!)];
        (Pieces, Columns) = sameShims is null ? CollectPieces() : (sameShims.Pieces, sameShims.Columns);
        Kept = new ValveOption[valves];
        Seated = new ValveOption[valves];
        Shared = new List<SharedOption>[valves];
        Private = new List<ValveOption>[valves];
        for (int v = 0; v < valves; v++)
        {
            ValveOption stays = Stay(v);
            Seated[v] = SeatAnew(v, stays);
            Kept[v] = request.Costs.Open.Contains(request.Engine.Valves[v].Group) ? Seated[v] : stays;
            Shared[v] = [];
            Private[v] = [];
            if (request.Engine.Valvetrain.HasShims)
            {
                AddShims(v);
            }
            else
            {
                AddTurn(v);
            }
        }
    }

    /// <summary>Keeping each valve, or stranding it where it may not be kept.</summary>
    public ValveOption[] Kept { get; }

    /// <summary>Keeping each valve where its group is opened: it is seated anew.</summary>
    public ValveOption[] Seated { get; }

    /// <summary>Shims that exist once.</summary>
    public List<SharedOption>[] Shared { get; }

    /// <summary>Sizes that can be bought in any number, and turns of a screw.</summary>
    public List<ValveOption>[] Private { get; }

    /// <summary>What makes the chance that a valve which is left as it is stays in band; null where that does not matter.</summary>
    public SurvivalWeights? StayingOf(int v) => _staying?.FromWhereItIs(v);

    /// <summary>For each grid point of a valve, the chance that it lands in band from there after a change, and stays.</summary>
    public double[] LandingFromEach(int v, ClearanceChange change) =>
        _staying?.AfterFromEach(v, change) ?? _estimate.Valves[v].LandingChances(change);

    /// <summary>How many sums and products the chances of all options take, roughly.</summary>
    public double Made => _made + (_staying?.Made ?? 0);

    /// <summary>Columns of the shared shims.</summary>
    public int Columns { get; }

    /// <summary>The shared shims: those in the engine, then those of the drawer by thickness.</summary>
    public IReadOnlyList<Piece> Pieces { get; }

    internal readonly record struct Piece(Thickness Thickness, ShimSource Source, int? FromValve, int First, int Count);

    private (List<Piece> Pieces, int Columns) CollectPieces()
    {
        int valves = _request.Engine.Valves.Count;
        List<Piece> pieces = [.. _request.Fitted.Select((t, v) => new Piece(t, ShimSource.Engine, v, v, 1))];
        int next = valves;
        foreach (IGrouping<Thickness, DrawerShims> same in _request.Stock.Drawer.GroupBy(d => d.Thickness))
        {
            int count = (int)Math.Min(valves, same.Sum(d => (long)d.Count));
            if (count > 0)
            {
                pieces.Add(new Piece(same.Key, ShimSource.Drawer, null, next, count));
                next += count;
            }
        }

        return (pieces, next);
    }

    private ValveOption Stay(int v)
    {
        double inBand = _chances.InBand(v);
        bool mayStay = inBand >= _request.Rules.KeepFloor;
        double chance = mayStay && StayingOf(v) is { } staying ? _estimate.Valves[v].InBandStaying(staying) : inBand;
        return new() { Action = ValveAction.Keep, IsStranded = !mayStay, Chance = mayStay ? chance : 1 };
    }

    private ValveOption SeatAnew(int v, ValveOption kept)
    {
        if (kept.IsStranded || _request.Rules.Seating.StandardDeviation == 0)
        {
            return kept;
        }

        var change = ClearanceChange.SeatedAnew(_request.Rules.Seating);
        return new() { Action = ValveAction.Keep, Chance = _chances.After(v, change), Change = change, IsSeatedAnew = true };
    }

    /// <summary>Minutes to change a valve, apart from what the shim costs.</summary>
    private double ToChange(int v) =>
        _request.Costs.Swap + (_chances.InBand(v) >= PlanRules.GoodFrom ? _request.Costs.Disturb : 0);

    private bool IsLikeForLike(int v, Thickness to) =>
        Math.Round(Math.Abs(_request.Fitted[v].Millimetres - to.Millimetres), 9) < PlanRules.LikeForLike;

    private void AddShims(int v)
    {
        foreach (Piece piece in NearestOf(v, Pieces, p => p.Thickness).Where(p => p.FromValve != v))
        {
            if (Fit(v, piece.Thickness, piece.Source, piece.FromValve, 0, _request.Rules.FitFloor) is { } option)
            {
                Shared[v].Add(new(option, (piece.First, piece.Count)));
            }
        }

        foreach (PurchasableSize size in NearestOf(v, _sizes, s => s.Thickness))
        {
            if (Fit(v, size.Thickness, ShimSource.Buy, null, size.Price, _request.Rules.FitFloor) is { } option)
            {
                Private[v].Add(option);
            }
        }
    }

    /// <summary>The changes nearest to the middle of the band, those among them that are no options as things stand: what is learnt may make them some.</summary>
    public IEnumerable<ValveOption> Nearest(int v, int most)
    {
        if (!_request.Engine.Valvetrain.HasShims)
        {
            return Private[v];
        }

        double wanted = WantedAt(v);
        return NearestOf(v, Pieces, p => p.Thickness).Where(p => p.FromValve != v).Select(p => (p.Thickness, p.Source, p.FromValve, Price: 0.0))
            .Concat(NearestOf(v, _sizes, s => s.Thickness).Select(s => (s.Thickness, Source: ShimSource.Buy, FromValve: (int?)null, s.Price)))
            .OrderBy(t => Math.Abs(t.Thickness.Millimetres - wanted)).Take(most)
            .Select(t => Fit(v, t.Thickness, t.Source, t.FromValve, t.Price, 0)).OfType<ValveOption>();
    }

    /// <summary>Of very many thicknesses those nearest to what a valve wants, in their order.</summary>
    private IEnumerable<T> NearestOf<T>(int v, IReadOnlyList<T> all, Func<T, Thickness> thicknessOf)
    {
        if (all.Count <= MostThicknesses)
        {
            return all;
        }

        double wanted = WantedAt(v);
        double farthest = all.Select(t => Math.Abs(thicknessOf(t).Millimetres - wanted)).Order().ElementAt(MostThicknesses - 1);
        return all.Where(t => Math.Abs(thicknessOf(t).Millimetres - wanted) <= farthest).Take(2 * MostThicknesses);
    }

    private double WantedAt(int v) =>
        _leverage.Wanted(_request.Fitted[v].Millimetres, _estimate.Valves[v].Mean, _request.Engine.Valves[v].Band.Middle);

    private ValveOption? Fit(int v, Thickness to, ShimSource source, int? fromValve, double price, double floor)
    {
        if (IsLikeForLike(v, to))
        {
            return null;
        }

        var change = ClearanceChange.Fitting(_leverage, _request.Fitted[v], to, _request.Rules.Seating);
        if (_chances.AfterAtMost(v, change) < floor)
        {
            return null;
        }

        ClearanceDistribution valve = _chances.ShapeOf(v);
        (int first, int last) = valve.Reach(change);
        _made += (_staying is null ? PerPoint : PerPointAndHorizon) * (last - first) / valve.BlockOf(change);
        double chance = _chances.After(v, change);
        return chance < floor
            ? null
            : new()
            {
                Action = ValveAction.Fit,
                Chance = chance,
                Minutes = ToChange(v) + (price * _request.Costs.MinutesPerCurrency),
                Change = change,
                To = to,
                Source = source,
                FromValve = fromValve,
            };
    }

    private void AddTurn(int v)
    {
        var setting = ScrewSetting.Of(
            _request.Engine.Valves[v].Band, _estimate.Valves[v].Mean, _request.Engine.Valvetrain, _request.Rules.Seating);
        double chance = _staying?.AfterSetting(v, setting) ?? setting.InBand;
        if (chance >= _request.Rules.FitFloor)
        {
            Private[v].Add(new()
            {
                Action = ValveAction.Turn,
                Chance = chance,
                Minutes = ToChange(v),
                Change = setting.Change,
                Setting = setting,
            });
        }
    }
}
