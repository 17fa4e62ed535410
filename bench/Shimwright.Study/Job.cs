using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>One shim goes into one valve.</summary>
internal readonly record struct Swap(int Valve, Shim In);

/// <summary>One engine on the bench under one strategy: its true state, the drawer, and the bill.</summary>
internal sealed class Job
{
    private const int KitOfEach = 3;
    private const double MinutesAShim = 0.5;
    private readonly Population _population;
    private readonly int _seed;
    private readonly int _number;
    private readonly double[] _clearances;
    private readonly double _micrometerOff;
    private readonly Draws _micrometer;
    private readonly HashSet<string> _open = [];
    private readonly HashSet<int> _dry = [];
    private readonly Dictionary<(int Valve, double Blade), double> _bladesOff = [];
    private int _feelings;
    private int _touches;

    public Job(int seed, Population population, int number)
    {
        (_seed, _population, _number) = (seed, population, number);
        _clearances = population.Clearances(seed, number);
        Person = population.Fingers(seed, number);
        Draws fitted = Chance(Stream.FittedShims);
        Fitted = [.. Engine.Valves.Select(_ => Shim.Make(Shim.SizeNear(fitted.Uniform(2.0, 2.8)), fitted))];
        Draws kit = Chance(Stream.Kit);
        Drawer = [.. Shim.Sizes.Sizes(Instrument.Marked)
            .SelectMany(s => Enumerable.Repeat(s.Thickness.Millimetres, KitOfEach))
            .Select(size => Shim.Make(size, kit))];
        _micrometer = Chance(Stream.Micrometer);
        _micrometerOff = _micrometer.Normal(Instrument.Micrometer.Systematic);
    }

    public static PlanCosts Costs { get; } = new(
        redo: 90, access: new Dictionary<string, double> { ["intake cam"] = 25, ["exhaust cam"] = 25 }, swap: 3);

    public static Engine Engine => Population.Engine;

    /// <summary>The fingers of whoever does the job.</summary>
    public FeelProfile Person { get; }

    public LossPrior Told => _population.Told;

    public Shim[] Fitted { get; }

    public List<Shim> Drawer { get; }

    public IReadOnlyList<double> Clearances => _clearances;

    public bool IsRight => Engine.Valves.Index().All(v =>
        _clearances[v.Index] >= v.Item.Band.Low && _clearances[v.Index] <= v.Item.Band.High);

    public int Round { get; private set; }

    public double Minutes { get; private set; }

    public int Bought { get; private set; }

    public int Swapped { get; private set; }

    /// <summary>Every valve felt once more. The first feeling is the same for every strategy.</summary>
    public IReadOnlyList<ValveReadings> Feel()
    {
        _feelings++;
        _bladesOff.Clear();
        return [.. Engine.Valves.Select((v, i) =>
            Fingers.Try(Person, v.Band, _clearances[i], Chance(Stream.Feeling, _feelings, i)))];
    }

    public void Measure(Shim shim) => shim.Measured ??= Math.Round(
        shim.Actual + _micrometerOff + _micrometer.Normal(Instrument.Micrometer.Random), 3);

    /// <summary>Measures a shim of the kit, which takes its time.</summary>
    public void MeasureFromKit(Shim shim)
    {
        Minutes += MinutesAShim;
        Measure(shim);
    }

    public Shim Buy(double size)
    {
        Bought++;
        Minutes += Shim.Sizes.Price * Costs.MinutesPerCurrency;
        return Shim.Make(size, Chance(Stream.Kit, Bought));
    }

    /// <summary>A shim of the size from the drawer, or a bought one; it is taken out of the drawer.</summary>
    public Shim Take(double size)
    {
        int at = Drawer.FindIndex(s => s.Nominal == size);
        if (at < 0)
        {
            return Buy(size);
        }

        Shim shim = Drawer[at];
        Drawer.RemoveAt(at);
        return shim;
    }

    /// <summary>The shim that a plan's line wants, out of the engine, bought or out of the drawer.</summary>
    public Shim Fetch(PlannedValve valve)
    {
        if (valve.Source == ShimSource.Engine)
        {
            return Fitted[valve.FromValve!.Value];
        }

        if (valve.Source == ShimSource.Buy)
        {
            return Buy(valve.To!.Millimetres);
        }

        Shim shim = Drawer.First(s => s.Reading == valve.To);
        Drawer.Remove(shim);
        return shim;
    }

    /// <summary>What a plan rests on.</summary>
    public PlanRequest Request(EngineCheck check, PlanCosts costs) => new(
        check, [.. Fitted.Select(s => s.Reading)],
        new Stock([.. Drawer.GroupBy(s => s.Reading).Select(g => new DrawerShims(g.Key, g.Count()))], [.. Shim.Sizes.Sizes(Instrument.Marked)]), costs);

    /// <summary>What the person's fingers turn out to be after a calibration; the usual ones where it comes to no end.</summary>
    public FeelProfile Calibrate() => Calibration.Of(Person, Chance(Stream.Calibration));

    /// <summary>
    /// The clearance of a valve by its depth, with its camshaft lifted: off by what all valves of that camshaft share, and by the
    /// depth itself. Lifting is paid with the round of work that follows.
    /// </summary>
    public DirectValue ReadDepth(int valve)
    {
        string camshaft = Engine.Valves[valve].Access;
        Open(camshaft);
        Minutes += Depths.Minutes;
        double shared = Chance(Stream.Depth, Engine.AccessGroups.Index().First(a => a.Item == camshaft).Index).Normal(Depths.Shared);
        double own = Chance(Stream.Depth, 10 + Round, valve).Normal(Depths.Own);
        return new DirectValue(_clearances[valve] + shared + own, Depths.Combined);
    }

    /// <summary>One round of work: every cam that has to come out, every swap, and the redo from the second round on.</summary>
    public void Work(IReadOnlyList<Swap> swaps)
    {
        Round++;
        Swapped += swaps.Count;
        Minutes += (Round > 1 ? Costs.Redo : 0)
            + (Costs.Swap * swaps.Count);
        Array.ForEach([.. swaps.Select(s => Engine.Valves[s.Valve].Access)], Open);
        foreach (int valve in _dry.Except(swaps.Select(s => s.Valve)))
        {
            _clearances[valve] += Chance(Stream.Seating, 100 + Round, valve).Normal(Seating.Usual.StandardDeviation);
        }

        Swap(swaps, Round);
        _open.Clear();
        _dry.Clear();
    }

    /// <summary>
    /// A dry fit of one access group: opened where it is not, the shims in, the camshaft laid down to be felt. It will be lifted once
    /// more, with the round of work that follows or for nothing but to be laid down for good.
    /// </summary>
    public void FitDry(string group, IReadOnlyList<Swap> swaps, double minutes)
    {
        Open(group);
        Minutes += minutes + (Costs.Swap * swaps.Count);
        Swapped += swaps.Count;
        _feelings++;
        foreach (int valve in _dry.Where(v => Engine.Valves[v].Access == group).Except(swaps.Select(s => s.Valve)))
        {
            _clearances[valve] += Chance(Stream.Seating, 300 + _feelings, valve).Normal(Seating.Usual.StandardDeviation);
        }

        Swap(swaps, 200 + _feelings);
        _dry.UnionWith(swaps.Select(s => s.Valve));
        _bladesOff.Clear();
    }

    /// <summary>One more trial of a valve; a blade that was tried there before is as far off its mark as it was then.</summary>
    public BladeTrial Touch(int valve, double blade, int leaves, double minutes)
    {
        _touches++;
        Minutes += minutes;
        Draws draws = Chance(Stream.Touching, _touches, valve);
        double off = _bladesOff.TryGetValue((valve, blade), out double known)
            ? known
            : _bladesOff[(valve, blade)] = draws.Normal(Person.Blade * Math.Sqrt(leaves));
        return new BladeTrial(blade, Fingers.Touch(Exact, _clearances[valve], blade + off, draws), leaves);
    }

    /// <summary>How far the blades of a feeling are off, given what they felt like: drawn until the same is felt.</summary>
    public void Remember(int valve, ValveReadings readings)
    {
        foreach (BladeTrial trial in readings.Trials)
        {
            Draws draws = Chance(Stream.Touching, -_feelings, (valve * 10_000) + (int)Math.Round(trial.Blade * 1000));
            double off;
            do
            {
                off = draws.Normal(Person.Blade);
            }
            while (!draws.Happens(Exact.Chance(trial.Feel, _clearances[valve], trial.Blade + off)));
            _bladesOff[(valve, trial.Blade)] = off;
        }
    }

    /// <summary>Whether the bucket of a valve turns by hand.</summary>
    public bool Turn(int valve, double minutes)
    {
        _touches++;
        Minutes += minutes;
        return Chance(Stream.Touching, _touches, valve).Happens(FeelProfile.ChanceBucketTurns(_clearances[valve]));
    }

    /// <summary>Takes time.</summary>
    public void Spend(double minutes) => Minutes += minutes;

    /// <summary>The groups that are open in this round.</summary>
    public IReadOnlySet<string> Opened => _open;

    /// <summary>The valves that were fitted dry in this round.</summary>
    public IReadOnlySet<int> Dry => _dry;

    private FeelProfile Exact => new(Person.Firm, Person.Light, Person.Loose, Person.StandardDeviation, Person.Slip, 0, Person.Doubt);

    private void Open(string group) => Minutes += _open.Add(group) ? Costs.AccessOf(group) : 0;

    private void Swap(IReadOnlyList<Swap> swaps, int time)
    {
        Shim[] removed = [.. swaps.Select(s => Fitted[s.Valve])];
        foreach ((int valve, Shim shim) in swaps)
        {
            double seating = Chance(Stream.Seating, time, valve).Normal(Seating.Usual.StandardDeviation);
            _clearances[valve] += Fitted[valve].Actual - shim.Actual + seating;
            Fitted[valve] = shim;
        }

        Drawer.AddRange(removed.Except(Fitted));
    }

    private Draws Chance(Stream stream, int first = 0, int second = 0) =>
        new(_seed, _population.Number, _number, (int)stream, first, second);
}
