using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What the best plan comes to, as things stand or as they would stand. A valve that no thickness serves counts as one that fails:
/// without that, what is learnt could make a job cheaper by giving a valve up.
/// </summary>
internal sealed class Outlook
{
    /// <summary>The most steps that advice on a job takes.</summary>
    private const double MostSteps = 9e8;

    /// <summary>The most of them that one search for a plan takes.</summary>
    private const double MostOfOne = 1.2e7;

    /// <summary>Sums and products that take as long as one step of a search.</summary>
    private const double PerStep = 32;

    /// <summary>Up to so many valves a job may take all the steps; beyond, fewer with their third power: what is cut is the look-ahead of jobs that nobody has.</summary>
    private const double UsualValves = 16;

    /// <summary>Up to so many valves everything is planned through.</summary>
    private const int FewValves = 6;

    /// <summary>
    /// A reading at one valve tells of the others too: allow this many minutes for that. Found on drawn jobs: more than 1 is once in 500 actions,
    /// more than 8 never in 8,000.
    /// </summary>
    private const double ByOthers = 1;

    private readonly Allowance _allowance;
    private readonly GivenCause _given;
    private readonly double?[] _leastAfter;

    public Outlook(PlanRequest request)
    {
        Request = request;
        _allowance = new(MostSteps * Math.Min(1, Math.Pow(UsualValves / request.Check.Engine.Valves.Count, 3)));
        Estimate = EngineEstimate.Open(request.Check, request.FinestChange);
        _given = new GivenCause(Estimate);
        (Best, Options) = Search(request, Estimate);
        Minutes = MinutesOf(request, Best);
        _leastAfter = new double?[Estimate.Valves.Count];
        Plan = new PlanWriter(request, Estimate, Options).Write(Best);
    }

    /// <summary>Whether all steps are taken, so that nothing more is planned through.</summary>
    public bool IsSpent => _allowance.IsSpent;

    /// <summary>Whether there are so few valves that everything is planned through.</summary>
    public bool IsSmall => Estimate.Valves.Count <= FewValves;

    /// <summary>Outcomes that were not planned from, because nothing depended on them any more.</summary>
    public int Spared { get; private set; }

    /// <summary>Counts outcomes that are not planned from.</summary>
    public void Spare(int outcomes) => Spared += outcomes;

    /// <summary>Whether steps would be left if so many outcomes more had been planned from, each with twice the steps that a search ends at.</summary>
    public bool Affords(int outcomes) => _allowance.Affords((outcomes + 1) * ((2 * MostOfOne) + ((Estimate.Made + Options.Made) / PerStep)));

    /// <summary>What is planned from.</summary>
    public PlanRequest Request { get; }

    /// <summary>What is known now.</summary>
    public EngineEstimate Estimate { get; }

    /// <summary>What may be done at each valve.</summary>
    public OptionTable Options { get; }

    /// <summary>The best plan as things stand.</summary>
    public PlanPoint Best { get; }

    /// <summary>The same, valve by valve.</summary>
    public ShimPlan Plan { get; }

    /// <summary>What it comes to, minutes.</summary>
    public double Minutes { get; }

    /// <summary>What is saved where this is expected to be left, minutes: never less than nothing, for what is learnt need not be used.</summary>
    public double Saving(double expected) => Math.Max(0, Minutes - expected);

    /// <summary>
    /// What the best plan comes to at least whatever is read at a valve, minutes, as good as certain but not proven: that of a job in which the
    /// valve is sure to pass and takes nothing, less what the reading may tell of the others. Nothing is known where a valve is
    /// stranded, which settles the plan before its minutes do, nor where all is to be known or the search was cut short. With few valves nothing
    /// is to be lost: each outcome is soon planned from.
    /// </summary>
    public double LeastAfter(int valve, double toSave)
    {
        if (IsSmall || double.IsNegativeInfinity(toSave) || Best.Choice.Any(o => o.IsStranded))
        {
            return 0;
        }

        return _leastAfter[valve] ??= IsSpent ? 0 : Math.Max(0, LeastWithSure(valve) - ByOthers);
    }

    private double LeastWithSure(int valve)
    {
        (PlanPoint best, double unproven) = BestOf(Request, Options.WithSure(valve));
        return best.Choice.Any(o => o.IsStranded) ? 0 : best.Minutes - unproven;
    }

    /// <summary>What the best plan would come to with another estimate of the same job.</summary>
    public double MinutesWith(EngineEstimate estimate)
    {
        PlanRequest request = Request.With(estimate.Check);
        return MinutesOf(request, Search(request, estimate, Options).Best);
    }

    /// <summary>What the best plan would come to with another estimate of the same job once an access group is open, without what opening it took.</summary>
    public double MinutesWithOpen(string access, EngineEstimate estimate)
    {
        PlanRequest open = Request.With(estimate.Check).WithOpen(access);
        return MinutesOf(open, Search(open, estimate, Options).Best);
    }

    /// <summary>What the best plan of another job would come to.</summary>
    public double MinutesWith(PlanRequest request, EngineEstimate estimate) => MinutesOf(request, Search(request, estimate).Best);

    /// <summary>The chance of what an estimate has read more than this one.</summary>
    public double ChanceOf(EngineEstimate after) => Math.Exp(after.LogEvidence - Estimate.LogEvidence);

    /// <summary>The best plan of a job, and what may be done in it.</summary>
    private (PlanPoint Best, OptionTable Options) Search(PlanRequest request, EngineEstimate estimate, OptionTable? sameShims = null)
    {
        var options = new OptionTable(request, estimate, _given, sameShims);
        _allowance.Take((estimate.Made + options.Made) / PerStep);
        return (BestOf(request, options).Best, options);
    }

    private (PlanPoint Best, double Unproven) BestOf(PlanRequest request, OptionTable options)
    {
        Allowance part = _allowance.Part(MostOfOne);
        var search = new PlanSearch(request, options, part);
        PlanPoint best = search.Best(PlanWeights.Even, 0);
        _allowance.Take(part.Taken);
        return (best, search.Unproven);
    }

    /// <summary>What a plan comes to, valves that nothing serves counted as failing for sure.</summary>
    public static double MinutesOf(PlanRequest request, PlanPoint plan)
    {
        if (!plan.Choice.Any(o => o.IsStranded))
        {
            return plan.Minutes;
        }

        PlanTally tally = new PlanLedger(request).Of([.. plan.Choice.Select(o => o.IsStranded ? o with { Chance = 0 } : o)]);
        return tally.Work + tally.ToCome;
    }
}
