using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What an estimate takes at a resolution: numbers that it keeps, and sums and products that it makes, both roughly. It is counted
/// beforehand, so that a check with many narrow bands, wide doubts or sharp readings is divided as finely as can be borne and no finer.
/// </summary>
internal sealed class EstimateWork
{
    /// <summary>The most numbers that an estimate may keep, eight bytes each.</summary>
    private const double MostKept = 8e6;

    /// <summary>The most sums and products that an estimate may make.</summary>
    private const double MostMade = 2e8;

    /// <summary>Arrays on the grid of a valve, and passes over them.</summary>
    private const double ArraysPerValve = 8, PassesPerValve = 20;

    /// <summary>What a chance of a feel takes, and a logarithm or an exponential, in sums and products.</summary>
    private const double PerChance = 25, PerExponential = 12;

    /// <summary>What an offset takes, each loss under it, and each valve under both.</summary>
    private const double PerOffset = 6000, PerPlace = 160, PerPlaceOfValve = 8;

    /// <summary>Where the shared losses are tabulated: arrays on the grid of a loss, and passes over them.</summary>
    private const double PassesPerLoss = 8;

    private readonly EngineCheck _check;
    private readonly ValveWork[] _valves;
    private readonly double _bandScale;
    private readonly int _widths;
    private readonly int _shared;
    private readonly double _most;

    /// <summary>Of a check whose valves' clearances are looked for between these limits.</summary>
    /// <param name="check">The check.</param>
    /// <param name="precision">An upper bound of how precisely the valves together can tell an offset: 1 / mm².</param>
    /// <param name="reachOf">Over how many millimetres the clearance of a valve is looked for.</param>
    /// <param name="only">The one valve that is estimated, its readings by themselves; null where all are.</param>
    public EstimateWork(EngineCheck check, double precision, Func<int, double> reachOf, int? only = null)
    {
        (_check, Precision) = (check, precision);
        IReadOnlyList<Valve> valves = check.Engine.Valves;
        _most = only is null ? MostMade : MostMade / valves.Count;
        _bandScale = valves.Min(v => Resolution.BandScale(v.Band.Width));
        bool isUnknown = only is null && check.Past is null && check.Round is null;
        Valve[] shared = isUnknown ? [.. valves.Where(v => !check.Loss.IsReworked(v.Side))] : [];
        _shared = shared.Length;
        _widths = shared.Select(v => Math.Round(v.Band.Width, 9)).Distinct().Count();
        _valves = [.. valves.Index().Where(v => only is null || v.Index == only)
            .Select(v => new ValveWork(check, v.Index, reachOf(v.Index), isUnknown && !check.Loss.IsReworked(v.Item.Side)))];
    }

    /// <summary>An upper bound of how precisely the valves together can tell an offset: 1 / mm².</summary>
    public double Precision { get; }

    /// <summary>How many sums and products it makes.</summary>
    public double Made { get; private set; }

    /// <summary>Whether an estimate at a resolution can be borne.</summary>
    public bool CanBear(Resolution resolution)
    {
        (int fingers, int heat, double widest) = CheckOffsets.Count(_check, resolution, Precision);
        double losses = _shared > 0 ? LossNodes.For(_check.Loss, Math.Max(_bandScale, resolution.Floor), _valves.Length).Losses.Length : 1;
        double offsets = (double)fingers * heat;
        double kept = 6 * offsets * losses;
        Made = offsets * (PerOffset + (losses * (PerPlace + (_valves.Length * PerPlaceOfValve))));
        double points = 0;
        foreach (ValveWork valve in _valves)
        {
            double grid = (valve.Reach / resolution.Step) + 1;
            double states = (valve.HasTrials ? fingers : 1) * (double)(valve.FeelsHeat ? heat : 1);
            // To blades alone both offsets are one, and most of their sums are the same.
            states = valve.HasOthers ? states : Math.Min(states, 2.0 * (fingers + heat));
            double stretch = Math.Min(grid, ((valve.Stretch + (2 * widest)) / resolution.Step) + 3);
            double rows = valve.IsShared ? losses : 1;
            double tables = valve.HasOthers ? states : 1;
            kept += (ArraysPerValve * grid) + (tables * stretch) + (states * rows * 2);
            Made += (PassesPerValve * grid) + (2 * states * rows * (stretch + PerExponential)) + (tables * stretch * PerExponential)
                + (PerChance * stretch * valve.ChancesAt(resolution.Floor));
            points = valve.IsShared ? Math.Max(points, grid) : points;
        }

        kept += _widths * losses * points;
        Made += _widths * losses * points * PassesPerLoss;
        return kept <= MostKept && Made <= _most;
    }

    /// <summary>What counts of one valve.</summary>
    private sealed class ValveWork
    {
        private readonly FeelProfile _feel;
        private readonly (int Leaves, int Times, int Feels)[] _groups;

        public ValveWork(EngineCheck check, int valve, double reach, bool isShared)
        {
            ValveReadings readings = check.Readings[valve];
            (_feel, Reach, IsShared) = (check.Feel, reach, isShared);
            HasOthers = readings.Values.Count + readings.BucketTurns.Count > 0;
            HasTrials = check.IsOpen || readings.Trials.Count > 0;
            FeelsHeat = !check.ShiftAt(valve).IsKnown && (HasOthers || HasTrials);
            (double from, double to) = Likelihood.SpanOf(readings, check.Feel, default);
            Stretch = Math.Max(0, to - from);
            _groups = [.. readings.Trials.GroupBy(t => (Math.Round(t.Blade, 9), t.Leaves)).Select(g => (g.Key.Leaves, g.Count(), g.Select(t => t.Feel).Distinct().Count()))];
        }

        public double Reach { get; }

        public bool IsShared { get; }

        public bool HasOthers { get; }

        public bool HasTrials { get; }

        public bool FeelsHeat { get; }

        /// <summary>The length over which the likelihood of the readings changes, mm.</summary>
        public double Stretch { get; }

        /// <summary>How many chances of a feel are worked out for one gap.</summary>
        public double ChancesAt(double floor) => _groups.Sum(g => (double)g.Feels * BladeGroup.ErrorsOf(_feel, g.Leaves, g.Times, floor));
    }
}
