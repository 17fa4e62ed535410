using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What is expected of one valve whose past is unknown, the shared loss integrated out, on a grid that may reach
/// further than the expectation itself.
/// </summary>
internal sealed class SingleValvePrior
{
    private readonly Dictionary<(double Blade, Feel Feel, int Leaves, double Shift), double[]> _trials = [];
    private readonly OwnLossTable _table;
    private readonly double[] _core;

    public SingleValvePrior(ClearanceBand band, LossPrior loss, Resolution resolution)
    {
        Band = band;
        _table = new OwnLossTable(band.Width, loss, resolution);
        _core = new double[_table.Points];
        double[] log = SharedLoss.LogPrior(loss, resolution);
        for (int k = 0; k < log.Length; k++)
        {
            ReadOnlySpan<double> own = _table.Density.AsSpan(k * resolution.StepsPerLoss, _core.Length);
            VectorMath.AddScaled(_core, own, (1 - LossPrior.StrayWeight) * Math.Exp(log[k]));
        }

        Grid = new UniformGrid(band.Middle + _table.Lowest, resolution.Step, _core.Length);
        (Smooth, Mass) = (_core, MassOf(Grid, _core));
    }

    private SingleValvePrior(SingleValvePrior narrow, int before, int after)
    {
        (Band, _table, _core) = (narrow.Band, narrow._table, narrow._core);
        Grid = new UniformGrid(narrow.Grid.Start - (before * narrow.Grid.Step), narrow.Grid.Step, before + _core.Length + after);
        Smooth = new double[Grid.Count];
        _core.CopyTo(Smooth, before);
        Mass = MassOf(Grid, Smooth);
    }

    /// <summary>The density of a stray valve where it may be, its weight included.</summary>
    public const double StrayDensity = LossPrior.StrayWeight / (2 * LossPrior.StrayReach);

    public ClearanceBand Band { get; }

    public UniformGrid Grid { get; }

    /// <summary>The density at each point, strays left out.</summary>
    public double[] Smooth { get; }

    /// <summary>The probability that sits at each point, strays included.</summary>
    public double[] Mass { get; }

    /// <summary>The same expectation on a grid that reaches at least from low to high.</summary>
    public SingleValvePrior Reaching(double low, double high)
    {
        int before = (int)Math.Max(0, Math.Ceiling((Grid.Start - low) / Grid.Step));
        int after = (int)Math.Max(0, Math.Ceiling((high - Grid.End) / Grid.Step));
        return before + after == 0 ? this : new(this, before, after);
    }

    /// <summary>
    /// ln of the likelihood of the readings at each point. What one trial says is kept, since a set of blades has few
    /// of them and an engine many checks; the fingers must be the same at every call.
    /// </summary>
    public void AddLogLikelihood(Span<double> log, ValveReadings readings, ThermalShift thermal, FeelProfile feel)
    {
        foreach (BladeTrial trial in readings.Trials)
        {
            var key = (trial.Blade, trial.Feel, trial.Leaves, thermal.Millimetres);
            if (!_trials.TryGetValue(key, out double[]? said))
            {
                said = new double[Grid.Count];
                Likelihood.AddLog(said, Grid, new ValveReadings([trial]), thermal, feel);
                _trials.Add(key, said);
            }

            VectorMath.AddScaled(log, said, 1);
        }

        if (readings.Values.Count + readings.BucketTurns.Count > 0)
        {
            Likelihood.AddLog(log, Grid, new ValveReadings(null, readings.Values, readings.BucketTurns), thermal, feel);
        }
    }

    private double[] MassOf(UniformGrid grid, double[] smooth)
    {
        double[] mass = ClearanceDistribution.StrayWeights(grid, Band);
        for (int i = 0; i < mass.Length; i++)
        {
            mass[i] = (grid.Step * smooth[i]) + (StrayDensity * mass[i]);
        }

        return mass;
    }
}
