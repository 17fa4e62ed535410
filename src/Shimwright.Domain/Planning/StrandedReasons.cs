using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Planning;

/// <summary>Finds why the stranded valves of a plan cannot be helped.</summary>
internal sealed class StrandedReasons(PlanRequest request, EngineEstimate estimate, OptionTable options, ValveOption[] choice)
{
    private readonly Engine _engine = request.Engine;

    public StrandedReason Of(int v)
    {
        ClearanceBand band = _engine.Valves[v].Band;
        if (!_engine.Valvetrain.HasShims)
        {
            return new BandTooNarrow(band.Width, request.Rules.FitFloor);
        }

        double wanted = Leverage.Of(_engine.Valvetrain).Wanted(request.Fitted[v].Millimetres, estimate.Valves[v].Mean, band.Middle);
        List<SharedOption> would = options.Shared[v];
        if (would.Count > 0)
        {
            return new SizesTaken(wanted, [.. would.GroupBy(o => o.Option.To!.Millimetres).Select(Taken)]);
        }

        double[] sizes = SizesBeside(v);
        return sizes.Length == 0 ? new NothingAtHand(wanted) : new NoSizeWouldDo(wanted, sizes.Min(), sizes.Max());
    }

    /// <summary>Who has the shims of a size that would do.</summary>
    private SizeTaken Taken(IGrouping<double, SharedOption> size) => new(size.Key, [.. size.SelectMany(HoldersOf).Distinct()]);

    private IEnumerable<ShimHolder> HoldersOf(SharedOption shared)
    {
        if (shared.Option.FromValve is { } owner && !choice[owner].IsChange)
        {
            yield return new(owner, Keeps: true, null);
        }

        foreach ((int taker, ValveOption option) in choice.Index())
        {
            if (option.To is not null && option.Source == shared.Option.Source
                && option.FromValve == shared.Option.FromValve && option.To == shared.Option.To)
            {
                yield return new(taker, Keeps: false, option.FromValve);
            }
        }
    }

    private double[] SizesBeside(int v) =>
    [
        .. request.Fitted.Where((_, other) => other != v).Select(t => t.Millimetres),
        .. request.Stock.Drawer.Where(d => d.Count > 0).Select(d => d.Thickness.Millimetres),
        .. request.Stock.Sizes.Select(s => s.Thickness.Millimetres),
    ];
}
