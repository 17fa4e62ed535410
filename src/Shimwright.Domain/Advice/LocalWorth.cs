using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What a reading at one valve, or a shim of it, would be worth with the valve's access group shut or open and everything else as the best
/// plan has it: quick, and near enough to tell which actions are worth planning through.
/// </summary>
internal sealed class LocalWorth
{
    /// <summary>Changes looked at: those nearest to what the valve wants.</summary>
    private const int MostOptions = 24;

    private readonly Outlook _now;
    private readonly int _valve;
    private readonly (ValveOption Option, double[] Landing)[] _changes;
    private readonly double[] _inBand;
    private readonly double[] _kept;
    private readonly double[] _seated;
    private readonly Fellows? _shut;
    private readonly Fellows _open;
    private readonly double _access;
    private readonly double _disturb;
    private readonly bool _isOpenedByPlan;
    private readonly bool _isTaken;
    private readonly bool _isTakenElsewhere;
    private readonly double[] _mass;

    public LocalWorth(Outlook now, int valve, int mostPlaces)
    {
        (_now, _valve) = (now, valve);
        PlanCosts costs = now.Request.Costs;
        (_shut, _open) = (Fellows.Shut(now, valve), Fellows.Open(now, valve));
        _isOpenedByPlan = Fellows.IsOpenedByPlan(now, valve);
        (_isTaken, _isTakenElsewhere) = (Fellows.IsTaken(now, valve, isShut: false), Fellows.IsTaken(now, valve, isShut: true));
        _access = costs.AccessOf(now.Request.Engine.Valves[valve].Group);
        ClearanceDistribution distribution = now.Estimate.Valves[valve];
        _disturb = distribution.InBand >= PlanRules.GoodFrom ? costs.Disturb : 0;
        var places = new Places(distribution, mostPlaces);
        _mass = places.Sums(distribution.Mass);
        _changes = [.. Candidates(now.Best.Choice[valve]).Select(o => (o, places.Sums(Landing(distribution, o))))];
        _inBand = places.Sums(distribution.MassOver(distribution.Band.Low, distribution.Band.High));
        _kept = places.Sums(Landing(distribution, now.Options.Kept[valve]));
        _seated = places.Sums(Landing(distribution, now.Options.Seated[valve]));
        double shift = now.Request.Check.ShiftAt(valve).Millimetres;
        Gaps = [.. Enumerable.Range(0, _mass.Length).Select(i => places.At(i) + shift)];
        Least = LeastUnder(null, 1);
    }

    /// <summary>What the best option comes to now, minutes.</summary>
    public double Least { get; }

    /// <summary>The gap at the time of the check for each clearance, mm.</summary>
    public double[] Gaps { get; }

    /// <summary>The chance of an answer, given its chance at each clearance.</summary>
    public double ChanceOf(double[] chances) => VectorMath.Dot(_mass, chances);

    /// <summary>What the best option comes to after an answer, with the valve's group shut or open.</summary>
    /// <param name="chances">The chance of the answer at each clearance; null where nothing is answered.</param>
    /// <param name="answer">Its chance.</param>
    /// <param name="isOpen">Whether the group was opened for the answer: what that took is not in it.</param>
    public double LeastUnder(double[]? chances, double answer, bool isOpen = false)
    {
        double ChanceOf(double[] landing) => Math.Clamp((chances is null ? landing.Sum() : VectorMath.Dot(landing, chances)) / answer, 0, 1);
        PlanCosts costs = _now.Request.Costs;
        PlanRules rules = _now.Request.Rules;
        double inBand = ChanceOf(_inBand);
        // What is spent already where the group is open, and what a change of this valve takes besides where it is not.
        double spent = isOpen && _open.IsOpened ? _open.ToOpen : 0;
        double toOpen = isOpen || _open.IsOpened ? 0 : _open.ToOpen;
        double least = double.PositiveInfinity;
        if (inBand >= rules.KeepFloor)
        {
            // Where another valve gets this one's shim it is not kept as things stand; after an answer the other one may do without.
            bool isAnswered = chances is not null;
            least = !isOpen && (isAnswered || !_isTakenElsewhere) && _shut is { } shut ? MinutesWith(shut, 0, ChanceOf(_kept)) : least;
            least = (isAnswered || !_isTaken) && (isOpen || _open.IsOpened) ? Math.Min(least, MinutesWith(_open, -spent, ChanceOf(_seated))) : least;
        }

        // What disturbing a good valve costs is counted where it is good after the answer, not where it seemed so before.
        double disturb = (inBand >= PlanRules.GoodFrom ? costs.Disturb : 0) - _disturb;
        foreach ((ValveOption option, double[] landing) in _changes)
        {
            double chance = ChanceOf(landing);
            if (chance >= rules.FitFloor)
            {
                least = Math.Min(least, MinutesWith(_open, option.Minutes + disturb + toOpen - spent, chance));
            }
        }

        return double.IsFinite(least) ? least
            : isOpen || _isOpenedByPlan || _shut is null ? MinutesWith(_open, -spent, 0)
            : MinutesWith(_shut.Value, 0, 0);
    }

    /// <summary>What a change of this valve comes to with a chance.</summary>
    public double MinutesOf(ValveOption option, double chance) => MinutesWith(_open, option.Minutes + (_open.IsOpened ? 0 : _open.ToOpen), chance);

    private double MinutesWith(Fellows fellows, double minutes, double chance) =>
        fellows.Minutes + minutes
        + (_now.Request.Again * (1 - chance))
        + (_access * (1 - (fellows.OfGroup * chance)))
        + (_now.Request.Costs.Redo * (1 - (fellows.OfAll * chance)));

    /// <summary>What the plan does, and the nearest of the changes that no other valve takes.</summary>
    private IEnumerable<ValveOption> Candidates(ValveOption planned) =>
        Fellows.FreeChanges(_now, _valve, MostOptions).Concat(planned.IsChange ? [planned] : []).Distinct();

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
