using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Planning;

/// <summary>An option that uses up one physical shim.</summary>
/// <param name="Option">The option.</param>
/// <param name="Columns">The physical shims, any of which serves: first column and how many follow.</param>
internal readonly record struct SharedOption(ValveOption Option, (int First, int Count) Columns);

/// <summary>Everything that may be done at each valve; its columns are those of <see cref="ShimSupply"/>.</summary>
internal sealed class OptionTable
{
    /// <summary>Sums and products for the chance from one grid point, for the re-check alone and for a horizon.</summary>
    private const double PerPoint = 45, PerPointAndHorizon = 300;

    private readonly PlanRequest _request;
    private readonly EngineEstimate _estimate;
    private readonly ShimSupply _supply;
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
        _supply = sameShims?._supply ?? new ShimSupply(valves, request.Fitted, request.Stock);
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

    private OptionTable(OptionTable other)
    {
        (_request, _estimate, _supply, _staying, _chances, _leverage) = (other._request, other._estimate, other._supply, other._staying, other._chances, other._leverage);
        (Kept, Seated, Shared, Private) = ([.. other.Kept], [.. other.Seated], [.. other.Shared], [.. other.Private]);
    }

    /// <summary>Keeping each valve, or stranding it where it may not be kept.</summary>
    public ValveOption[] Kept { get; }

    /// <summary>Keeping each valve where its group is opened: it is seated anew.</summary>
    public ValveOption[] Seated { get; }

    /// <summary>Shims that exist once.</summary>
    public List<SharedOption>[] Shared { get; }

    /// <summary>Sizes that can be bought in any number, and turns of a screw.</summary>
    public List<ValveOption>[] Private { get; }

    /// <summary>The same table where one valve is sure to pass whatever is done there: kept for nothing, or changed for nothing where its group is opened.</summary>
    public OptionTable WithSure(int v)
    {
        var sure = new OptionTable(this);
        sure.Kept[v] = Kept[v] with { IsStranded = false, Chance = 1, Minutes = 0 };
        sure.Seated[v] = Seated[v] with { IsStranded = false, Chance = 1, Minutes = 0 };
        sure.Shared[v] = [];
        sure.Private[v] = [new() { Action = ValveAction.Turn, Chance = 1 }];
        return sure;
    }

    /// <summary>What makes the chance that a valve which is left as it is stays in band; null where that does not matter.</summary>
    public SurvivalWeights? StayingOf(int v) => _staying?.FromWhereItIs(v);

    /// <summary>For each grid point of a valve, the chance that it lands in band from there after a change, and stays.</summary>
    public double[] LandingFromEach(int v, ClearanceChange change) =>
        _staying?.AfterFromEach(v, change) ?? _estimate.Valves[v].LandingChances(change);

    /// <summary>How many sums and products the chances of all options take, roughly.</summary>
    public double Made => _made + (_staying?.Made ?? 0);

    /// <summary>Columns of the shared shims.</summary>
    public int Columns => _supply.Columns;

    /// <summary>The shared shims: those in the engine, then those of the drawer by thickness.</summary>
    public IReadOnlyList<ShimSupply.Piece> Pieces => _supply.Pieces;

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
        double Wanted() => WantedAt(v);
        foreach (ShimSupply.Piece piece in _supply.PiecesNear(Wanted).Where(p => p.FromValve != v))
        {
            if (Fit(v, piece.Thickness, piece.Source, piece.FromValve, 0, _request.Rules.FitFloor) is { } option)
            {
                Shared[v].Add(new(option, (piece.First, piece.Count)));
            }
        }

        foreach (PurchasableSize size in _supply.SizesNear(Wanted))
        {
            if (Fit(v, size.Thickness, ShimSource.Buy, null, size.Price, _request.Rules.FitFloor) is { } option)
            {
                Private[v].Add(option);
            }
        }
    }

    /// <summary>
    /// The changes nearest to the middle of the band, those among them that are no options as things stand: what is learnt may make them
    /// some. Of thicknesses that lie closer together than half a standard deviation one stands for all that are got in the same way.
    /// </summary>
    /// <param name="v">The valve.</param>
    /// <param name="most">How many at most.</param>
    /// <param name="isFree">Whether a shim can be had from where it is.</param>
    public IEnumerable<ValveOption> Nearest(int v, int most, Func<ShimSupply.Shim, bool> isFree)
    {
        if (!_request.Engine.Valvetrain.HasShims)
        {
            return Private[v];
        }

        double apart = _estimate.Valves[v].StandardDeviation / 2;
        return _supply.Spread(WantedAt(v), apart, most, s => s.FromValve != v && !IsLikeForLike(v, s.Thickness) && isFree(s))
            .Select(s => Fit(v, s.Thickness, s.Source, s.FromValve, s.Price, 0)).OfType<ValveOption>();
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
