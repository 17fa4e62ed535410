using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Study;

/// <summary>One shim goes into one valve.</summary>
internal readonly record struct Swap(int Valve, Shim In);

/// <summary>One engine on the bench under one strategy: its true state, the drawer, and the bill.</summary>
internal sealed class Job
{
    private const int KitOfEach = 3;
    private readonly Population _population;
    private readonly int _seed;
    private readonly int _number;
    private readonly double[] _clearances;
    private readonly double _micrometerOff;
    private readonly Draws _micrometer;
    private int _feelings;

    public Job(int seed, Population population, int number)
    {
        (_seed, _population, _number) = (seed, population, number);
        _clearances = population.Clearances(seed, number);
        Draws fitted = Chance(Stream.FittedShims);
        Fitted = [.. Engine.Valves.Select(_ => Shim.Make(Shim.SizeNear(fitted.Uniform(2.0, 2.8)), fitted))];
        Draws kit = Chance(Stream.Kit);
        Drawer = [.. Shim.Sizes.Sizes(Instrument.Marked)
            .SelectMany(s => Enumerable.Repeat(s.Thickness.Millimetres, KitOfEach))
            .Select(size => Shim.Make(size, kit))];
        _micrometer = Chance(Stream.Micrometer);
        _micrometerOff = _micrometer.Normal(Instrument.Micrometer.Shared);
    }

    public static PlanCosts Costs { get; } = new(
        redo: 90, access: new Dictionary<string, double> { ["intake cam"] = 25, ["exhaust cam"] = 25 }, swap: 3);

    public static Engine Engine => Population.Engine;

    public LossExpectation Told => _population.Told;

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
            Fingers.Try(v.Band, _clearances[i], Chance(Stream.Feeling, _feelings, i)))];
    }

    public void Measure(Shim shim) => shim.Measured ??= Math.Round(
        shim.Actual + _micrometerOff + _micrometer.Normal(Instrument.Micrometer.Repeatability), 3);

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

    /// <summary>One round of work: every cam that has to come out, every swap, and the redo from the second round on.</summary>
    public void Work(IReadOnlyList<Swap> swaps)
    {
        Round++;
        Swapped += swaps.Count;
        Minutes += (Round > 1 ? Costs.Redo : 0)
            + (Costs.Swap * swaps.Count)
            + swaps.Select(s => Engine.Valves[s.Valve].Access).Distinct().Sum(Costs.AccessOf);
        Shim[] removed = [.. swaps.Select(s => Fitted[s.Valve])];
        foreach ((int valve, Shim shim) in swaps)
        {
            double seating = Chance(Stream.Seating, Round, valve).Normal(PlanRules.Default.Seating);
            _clearances[valve] += Fitted[valve].Actual - shim.Actual + seating;
            Fitted[valve] = shim;
        }

        Drawer.AddRange(removed.Except(Fitted));
    }

    private Draws Chance(Stream stream, int first = 0, int second = 0) =>
        new(_seed, _population.Number, _number, (int)stream, first, second);
}
