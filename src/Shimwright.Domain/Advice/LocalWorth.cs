using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What a reading at one valve, or a shim of it, would be worth if everything else were done as the best plan has it: quick, and near
/// enough to tell which actions are worth planning through.
/// </summary>
internal sealed class LocalWorth
{
    /// <summary>Options looked at: the likeliest ones.</summary>
    private const int MostOptions = 24;

    private readonly Outlook _now;
    private readonly int _valve;
    private readonly (ValveOption Option, double[] Landing)[] _options;
    private readonly double _others;
    private readonly double _ofGroup;
    private readonly double _access;
    private readonly double _toOpen;
    private readonly bool _isOpened;
    private readonly double[] _mass;

    public LocalWorth(Outlook now, int valve, int mostPlaces)
    {
        (_now, _valve) = (now, valve);
        ValveOption[] choice = now.Best.Choice;
        IReadOnlyList<Engines.Valve> valves = now.Request.Engine.Valves;
        string group = valves[valve].Group;
        int[] rest = [.. Enumerable.Range(0, choice.Length).Where(v => v != valve)];
        int[] fellows = [.. rest.Where(v => valves[v].Group == group)];
        _others = rest.Aggregate(1.0, (p, v) => p * choice[v].Chance);
        _ofGroup = fellows.Aggregate(1.0, (p, v) => p * choice[v].Chance);
        _isOpened = fellows.Any(v => choice[v].IsChange);
        _access = now.Request.Costs.AccessOf(group);
        _toOpen = now.Request.Costs.ToOpen(group);
        ClearanceDistribution distribution = now.Estimate.Valves[valve];
        var places = new Places(distribution, mostPlaces);
        _mass = places.Sums(distribution.Mass);
        _options = [.. Candidates(choice[valve]).Select(o => (o, places.Sums(Landing(distribution, o))))];
        double shift = now.Request.Check.ShiftAt(valve).Millimetres;
        Gaps = [.. Enumerable.Range(0, _mass.Length).Select(i => places.At(i) + shift)];
        Spread = distribution.StandardDeviation;
        Least = LeastUnder(null, 1);
    }

    /// <summary>Standard deviation of the valve's clearance, mm.</summary>
    public double Spread { get; }

    /// <summary>What the best option comes to now, minutes.</summary>
    public double Least { get; }

    /// <summary>The gap at the time of the check for each clearance, mm.</summary>
    public double[] Gaps { get; }

    /// <summary>The chance of an answer, given its chance at each clearance.</summary>
    public double ChanceOf(double[] chances) => VectorMath.Dot(_mass, chances);

    /// <summary>What the best option comes to after an answer.</summary>
    /// <param name="chances">The chance of the answer at each clearance; null where nothing is answered.</param>
    /// <param name="answer">Its chance.</param>
    public double LeastUnder(double[]? chances, double answer)
    {
        double least = double.PositiveInfinity;
        foreach ((ValveOption option, double[] landing) in _options)
        {
            double p = chances is null ? landing.Sum() : VectorMath.Dot(landing, chances);
            double chance = Math.Clamp(p / answer, 0, 1);
            if (chance >= (option.IsChange ? _now.Request.Rules.FitFloor : _now.Request.Rules.KeepFloor))
            {
                least = Math.Min(least, MinutesOf(option, chance));
            }
        }

        return double.IsFinite(least) ? least : Stranded;
    }

    /// <summary>What the valve comes to where nothing serves it.</summary>
    private double Stranded => (_access * (1 - _ofGroup)) + (_now.Request.Costs.Redo * (1 - _others)) + _now.Request.Costs.Redo + _now.Request.Again;

    /// <summary>What an option of this valve comes to with a chance, all else as planned.</summary>
    public double MinutesOf(ValveOption option, double chance) =>
        option.Minutes + (option.IsChange && !_isOpened ? _toOpen : 0)
        + (_now.Request.Again * (1 - chance))
        + (_access * (1 - (_ofGroup * chance)))
        + (_now.Request.Costs.Redo * (1 - (_others * chance)));

    /// <summary>Keeping the valve, what the plan does, and the nearest of the rest that no other valve takes.</summary>
    private IEnumerable<ValveOption> Candidates(ValveOption planned)
    {
        OptionTable options = _now.Options;
        ValveOption kept = _isOpened ? options.Seated[_valve] : options.Kept[_valve];
        return options.Nearest(_valve, MostOptions).Where(IsFree).Append(planned).Append(kept)
            .Select(o => o.IsStranded ? o with { IsStranded = false } : o).Distinct();
    }

    private bool IsFree(ValveOption option)
    {
        ValveOption[] choice = _now.Best.Choice;
        if (option.Source == ShimSource.Engine)
        {
            return choice[option.FromValve!.Value].IsChange && !choice.Where((c, v) => v != _valve && c.FromValve == option.FromValve).Any();
        }

        int taken = choice.Where((c, v) => v != _valve && c.Source == ShimSource.Drawer && c.To == option.To).Count();
        return option.Source == ShimSource.Buy || taken < _now.Request.Stock.Drawer.Where(d => d.Thickness == option.To).Sum(d => d.Count);
    }

    /// <summary>At each clearance, the chance of it and of landing in band from it.</summary>
    private static double[] Landing(ClearanceDistribution valve, ValveOption option)
    {
        if (!option.IsChange && !option.IsSeatedAnew)
        {
            return valve.MassOver(valve.Band.Low, valve.Band.High);
        }

        double[] landing = option.Setting is null ? valve.LandingChances(option.Change) : [.. Enumerable.Repeat(option.Chance, valve.Grid.Count)];
        for (int i = 0; i < landing.Length; i++)
        {
            landing[i] *= valve.Mass[i];
        }

        return landing;
    }
}
