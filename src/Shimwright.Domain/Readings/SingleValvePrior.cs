using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What is expected of one valve whose past is unknown, the shared loss integrated out, on a grid that may reach
/// further than the expectation itself.
/// </summary>
internal sealed class SingleValvePrior
{
    private readonly Dictionary<(BladeTrial Trial, double Shift), double[]> _trials = [];
    private readonly double[] _core;

    public SingleValvePrior(ClearanceBand band, LossPrior loss, Resolution resolution, GapSense sense)
    {
        Band = band;
        var nodes = LossNodes.For(loss, resolution.Counted(Resolution.BandScale(band.Width)), 1);
        var table = new LossTable(band.Width, loss, nodes, resolution, sense);
        _core = new double[table.Rows[0].Length];
        for (int k = 0; k < table.Rows.Length; k++)
        {
            VectorMath.AddScaled(_core, table.Rows[k], (1 - LossPrior.StrayWeight) * Math.Exp(nodes.LogWeights[k]));
        }

        Grid = new UniformGrid(band.Middle + table.Lowest, resolution.Step, _core.Length);
        (Smooth, Mass) = (_core, MassOf(Grid, _core));
    }

    private SingleValvePrior(SingleValvePrior narrow, int before, int after)
    {
        (Band, _core) = (narrow.Band, narrow._core);
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
    /// ln of the likelihood of the readings at each point. What one trial of a blade says is kept, since a set of blades has
    /// few of them and an engine many checks; the fingers must be the same at every call.
    /// </summary>
    public void AddLogLikelihood(Span<double> log, ValveReadings readings, ThermalShift thermal, FeelProfile feel, Resolution resolution)
    {
        if (resolution.Floor > 0)
        {
            // All of them together tell no more apart than the floor.
            Add(log, readings, thermal, feel, resolution);
            return;
        }

        List<BladeTrial> repeated = [];
        foreach (IGrouping<(double, int), BladeTrial> blade in readings.Trials.GroupBy(t => (t.Blade, t.Leaves)))
        {
            BladeTrial[] trials = [.. blade];
            if (trials.Length > 1)
            {
                repeated.AddRange(trials);
                continue;
            }

            if (!_trials.TryGetValue((trials[0], thermal.Millimetres), out double[]? said))
            {
                said = new double[Grid.Count];
                Add(said, new ValveReadings(trials), thermal, feel, resolution);
                _trials.Add((trials[0], thermal.Millimetres), said);
            }

            VectorMath.AddScaled(log, said, 1);
        }

        if (repeated.Count + readings.Values.Count + readings.BucketTurns.Count > 0)
        {
            Add(log, new ValveReadings(repeated, readings.Values, readings.BucketTurns), thermal, feel, resolution);
        }
    }

    /// <summary>Beyond the gaps at which the likelihood changes it stays as it is at them.</summary>
    private void Add(Span<double> log, ValveReadings readings, ThermalShift thermal, FeelProfile feel, Resolution resolution)
    {
        var likelihood = new Likelihood(readings, feel, resolution);
        int first = (int)Math.Clamp(Math.Floor(Grid.Position(likelihood.From - thermal.Millimetres)), 0, log.Length - 1);
        int last = (int)Math.Clamp(Math.Ceiling(Grid.Position(likelihood.To - thermal.Millimetres)), first, log.Length - 1);
        double below = 0, above = 0;
        for (int i = first; i <= last; i++)
        {
            above = likelihood.Log(Grid.At(i) + thermal.Millimetres);
            below = i == first ? above : below;
            log[i] += above;
        }

        for (int i = 0; i < first; i++)
        {
            log[i] += below;
        }

        for (int i = last + 1; i < log.Length; i++)
        {
            log[i] += above;
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
