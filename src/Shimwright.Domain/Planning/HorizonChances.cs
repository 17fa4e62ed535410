using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The chances of a job whose clearances are to stay in band for some time: kept and fitted valves alike have to be in band
/// and then not leave it. What the options of a valve share is tabulated once.
/// </summary>
internal sealed class HorizonChances
{
    /// <summary>Steps of a grid over which the density on it can change.</summary>
    private const double StepsPerBend = 4;

    /// <summary>Sums and products for the chance to stay from one place.</summary>
    private const double PerStay = 2000;

    private readonly WearHorizon _horizon;
    private readonly EngineEstimate _estimate;
    private readonly Dictionary<(ClearanceBand, RateGivenClearance, double, int), LandingTable> _tables = [];
    private readonly RateTrack[] _tracks;

    public HorizonChances(WearHorizon horizon, EngineEstimate estimate)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(horizon.Rates.Count, estimate.Valves.Count, nameof(horizon));
        _horizon = horizon;
        _estimate = estimate;
        _tracks = [.. estimate.Valves.Select((valve, v) => new RateTrack(valve, horizon.Rates[v], Risk(valve.Band).RateScale))];
    }

    /// <summary>How many sums and products the tables took, roughly.</summary>
    public double Made { get; private set; }

    /// <summary>Weights on the grid that turn a density of the clearance into the chance to be in band and stay there.</summary>
    public SurvivalWeights FromWhereItIs(int v)
    {
        ClearanceDistribution valve = _estimate.Valves[v];
        RateGivenClearance rate = _horizon.Rates[v];
        PassageRisk risk = Risk(valve.Band);
        double[] smooth = new double[valve.Grid.Count];
        double[] stray = new double[valve.Grid.Count];
        foreach ((double c, double weight) in BandRule.Over(valve.Band, risk.ClearanceScale, StepsPerBend * valve.Grid.Step))
        {
            Made += PerStay;
            double stays = weight * (1 - risk.LeavesFrom(c, rate.Mean + (rate.Slope * (c - rate.At)), rate.StandardDeviation));
            CubicRule.AddPoint(smooth, valve.Grid, c, stays);
            if (Math.Abs(c - valve.Band.Middle) <= LossPrior.StrayReach)
            {
                CubicRule.AddPoint(stray, valve.Grid, c, stays);
            }
        }

        return new SurvivalWeights(smooth, stray);
    }

    /// <summary>The chance that a valve lands in its band and stays there after a change.</summary>
    public double After(int v, ClearanceChange change)
    {
        ClearanceDistribution valve = _estimate.Valves[v];
        LandingTable table = TableFor(v, change.Uncertainty);
        (int first, int last) = valve.Reach(change);
        int block = valve.BlockOf(change);
        double sum = 0;
        for (int i = first; i <= last; i += block)
        {
            int end = Math.Min(i + block - 1, last);
            int middle = (i + end) / 2;
            sum += valve.MassOfPoints(i, end) * table.At(valve.Grid.At(middle) + change.Shift, _tracks[v].PlaceOf(middle));
        }

        return Math.Clamp(sum, 0, 1);
    }

    /// <summary>The same from each grid point of the valve.</summary>
    public double[] AfterFromEach(int v, ClearanceChange change)
    {
        ClearanceDistribution valve = _estimate.Valves[v];
        LandingTable table = TableFor(v, change.Uncertainty);
        double[] chances = new double[valve.Grid.Count];
        (int first, int last) = valve.Reach(change);
        for (int i = first; i <= last; i++)
        {
            chances[i] = table.At(valve.Grid.At(i) + change.Shift, _tracks[v].PlaceOf(i));
        }

        return chances;
    }

    /// <summary>The chance of a valve whose screw is set to the middle of its band, whatever the gap was before.</summary>
    public double AfterSetting(int v, ScrewSetting setting)
    {
        ClearanceDistribution valve = _estimate.Valves[v];
        RateGivenClearance rate = _horizon.Rates[v];
        double mean = rate.Mean + (rate.Slope * (valve.Mean - rate.At));
        double spread = Squares.CombinedStandardUncertainty(rate.StandardDeviation, rate.Slope * valve.StandardDeviation);
        return new LandingTable(valve.Band, Risk(valve.Band), setting.Change.Uncertainty, [mean], spread).At(setting.Target, 0);
    }

    private PassageRisk Risk(ClearanceBand band) => new(band, _horizon.Diffusion, _horizon.Time);

    private LandingTable TableFor(int v, double error)
    {
        ClearanceBand band = _estimate.Valves[v].Band;
        RateTrack track = _tracks[v];
        // Without a past the valves of a side share their rates, and so their tables; with one each has its own.
        var key = (band, _horizon.Rates[v], error, track.Means.Count > 1 ? v : -1);
        if (!_tables.TryGetValue(key, out LandingTable? table))
        {
            table = new LandingTable(band, Risk(band), error, track.Means, _horizon.Rates[v].StandardDeviation);
            _tables.Add(key, table);
            Made += table.Made;
        }

        return table;
    }
}
