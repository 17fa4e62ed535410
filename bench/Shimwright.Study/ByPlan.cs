using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>
/// Follows the chosen plan and its verdict. What a re-check leaves is where the next round begins: nothing that was learnt of a
/// valve is forgotten. With a micrometer, the shims in the engine are measured, and
/// every shim as it goes in; kit shims are known by their marks until then, unless those that come into question are
/// measured before one is chosen.
/// </summary>
/// <param name="measures">Whether there is a micrometer.</param>
/// <param name="told">What the plan is told to expect; the population's own where left out.</param>
/// <param name="feel">What the plan takes the fingers for; the usual ones where left out.</param>
/// <param name="depths">Where depths are read.</param>
/// <param name="measuresKit">Whether the kit shims that come into question are measured too.</param>
internal sealed class ByPlan(
    bool measures, LossPrior? told = null, Func<Job, FeelProfile>? feel = null, DepthsTaken depths = DepthsTaken.Never,
    bool measuresKit = false) : Strategy
{
    private FeelProfile? _feel;
    private readonly ValveReadings[] _sinceWork = [.. Job.Engine.Valves.Select(_ => ValveReadings.None)];
    private EngineCheck? _before;
    private List<Adjustment> _changes = [];

    private double? _firstChance;
    private bool _firstStrands;

    /// <inheritdoc/>
    public override double? FirstChance => _firstStrands ? null : _firstChance;

    public override void Note(Job job, IReadOnlyList<ValveReadings> readings)
    {
        for (int v = 0; v < _sinceWork.Length; v++)
        {
            _sinceWork[v] = _sinceWork[v].With(readings[v]);
        }
    }

    public override IReadOnlyList<Swap> Decide(Job job)
    {
        if (measures)
        {
            Array.ForEach(job.Fitted, job.Measure);
        }

        _feel ??= feel?.Invoke(job) ?? FeelProfile.Default;
        ShimPlan plan = Plan(job);
        if (ReadDepths(job, plan))
        {
            plan = Plan(job);
        }

        while (measuresKit && MeasureKit(job, plan))
        {
            plan = Plan(job);
        }

        _firstStrands |= _firstChance is null && plan.Stranded.Count > 0;
        _firstChance ??= plan.ChanceAll;
        List<Swap> swaps = [.. plan.Valves.Index()
            .Where(v => v.Item.Action == ValveAction.Fit)
            .Select(v => new Swap(v.Index, job.Fetch(v.Item)))];
        _before = Check(job);
        _changes = [.. swaps.Select(s => Change(job, s))];
        Array.Fill(_sinceWork, ValveReadings.None);
        return swaps;
    }

    public override bool Passes(Job job) => RecheckVerdict
        .On(Recheck(_before!)).Passes;

    private ShimPlan Plan(Job job) => Planner.Plan(job.Request(Check(job), Job.Costs)).Chosen;

    /// <summary>The check of the first round, and in later rounds the re-check with what the work left.</summary>
    private EngineCheck Check(Job job) => _before is { } before
        ? Recheck(before).ToCheck()
        : new EngineCheck(Job.Engine, _sinceWork, loss: told ?? job.Told, feel: _feel);

    private Recheck Recheck(EngineCheck before) => new(before, _changes, _sinceWork, ThermalShift.Reference, Seating.Usual);

    /// <summary>Reads depths where the strategy wants them; whether there was any.</summary>
    private bool ReadDepths(Job job, ShimPlan plan)
    {
        int[] wanted = [.. Enumerable.Range(0, _sinceWork.Length).Where(v => depths switch
        {
            DepthsTaken.Never => false,
            DepthsTaken.WhereNoBladeEnters => Fingers.AreBlind(_sinceWork[v]),
            _ => Fingers.AreBlind(_sinceWork[v]) || plan.Opened.Contains(Job.Engine.Valves[v].Access),
        })];
        foreach (int v in wanted)
        {
            _sinceWork[v] = _sinceWork[v].With(new ValveReadings(values: [job.ReadDepth(v)]));
        }

        return wanted.Length > 0;
    }

    /// <summary>Measures the kit shims of the sizes that the plan wants and of those beside them; whether one was still known by its mark only.</summary>
    private static bool MeasureKit(Job job, ShimPlan plan)
    {
        double[] wanted = [.. plan.Valves.Where(v => v.Source == ShimSource.Drawer).Select(v => v.To!.Millimetres)];
        Shim[] candidates = [.. job.Drawer.Where(s => s.Measured is null && wanted.Any(w => Math.Abs(s.Nominal - w) < 1.5 * Shim.Sizes.Step))];
        Array.ForEach(candidates, job.MeasureFromKit);
        return candidates.Length > 0;
    }

    private Adjustment Change(Job job, Swap swap)
    {
        if (measures)
        {
            job.Measure(swap.In);
        }

        return Adjustment.Fitted(swap.Valve, job.Fitted[swap.Valve].Reading, swap.In.Reading);
    }
}
