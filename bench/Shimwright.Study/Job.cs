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
    private readonly HashSet<string> _lifted = [];
    private int _feelings;

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

    /// <summary>What the person's fingers turn out to be after a calibration; the usual ones where it comes to no end.</summary>
    public FeelProfile Calibrate() => Calibration.Of(Person, Chance(Stream.Calibration));

    /// <summary>
    /// The clearance of a valve by its depth, with its camshaft lifted: off by what all valves of that camshaft share, and by the
    /// depth itself. Lifting is paid with the round of work that follows.
    /// </summary>
    public DirectValue ReadDepth(int valve)
    {
        string camshaft = Engine.Valves[valve].Access;
        _lifted.Add(camshaft);
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
            + (Costs.Swap * swaps.Count)
            + swaps.Select(s => Engine.Valves[s.Valve].Access).Union(_lifted).Sum(Costs.AccessOf);
        _lifted.Clear();
        Shim[] removed = [.. swaps.Select(s => Fitted[s.Valve])];
        foreach ((int valve, Shim shim) in swaps)
        {
            double seating = Chance(Stream.Seating, Round, valve).Normal(Seating.Usual.StandardDeviation);
            _clearances[valve] += Fitted[valve].Actual - shim.Actual + seating;
            Fitted[valve] = shim;
        }

        Drawer.AddRange(removed.Except(Fitted));
    }

    private Draws Chance(Stream stream, int first = 0, int second = 0) =>
        new(_seed, _population.Number, _number, (int)stream, first, second);
}
