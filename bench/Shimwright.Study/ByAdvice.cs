using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Advice;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>
/// Does what pays next until nothing more pays, then carries out the plan; at the re-check the same with what can be done there. A valve
/// that is then neither passed nor worth another shim is felt once more. Shims in the engine, and every shim as it goes in, are measured.
/// </summary>
/// <param name="minutes">What each kind of action takes; null where it cannot be done.</param>
internal sealed class ByAdvice(ActionMinutes minutes) : Strategy
{
    private const int MostActions = 60;
    private const int MostFeelings = 8;

    /// <summary>The usual set, mm.</summary>
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30, 0.35, 0.40];

    private readonly ValveReadings[] _sinceWork = [.. Job.Engine.Valves.Select(_ => ValveReadings.None)];
    private readonly HashSet<string> _off = [];
    private EngineCheck? _before;
    private IReadOnlyList<Adjustment> _changes = [];
    private bool _atWork;

    private double? _firstChance;
    private bool _firstStrands;

    /// <inheritdoc/>
    public override double? FirstChance => _firstStrands ? null : _firstChance;

    public override void Note(Job job, IReadOnlyList<ValveReadings> readings)
    {
        for (int v = 0; v < _sinceWork.Length; v++)
        {
            job.Remember(v, readings[v]);
            _sinceWork[v] = _sinceWork[v].With(readings[v]);
        }
    }

    public override IReadOnlyList<Swap> Decide(Job job)
    {
        Array.ForEach(job.Fitted, job.Measure);
        _atWork = true;
        ShimPlan plan = Follow(job, minutes);
        _atWork = false;
        _off.Clear();
        (_firstChance, _firstStrands) = _firstChance is null ? (plan.ChanceAll, plan.Stranded.Count > 0) : (_firstChance, _firstStrands);
        return Fit(job, [.. plan.Valves.Index().Where(v => v.Item.Action == ValveAction.Fit).Select(v => v.Index)], plan, job.Dry);
    }

    public override bool Passes(Job job)
    {
        ActionMinutes readings = minutes.Without(ActionKind.Micrometer).Without(ActionKind.Depth).Without(ActionKind.DryFit);
        for (int felt = 0; ; felt++)
        {
            ShimPlan plan = Follow(job, readings);
            RecheckVerdict verdict = RecheckVerdict.On(Recheck());
            if (verdict.Passes || plan.Opened.Count > 0 || felt == MostFeelings)
            {
                return verdict.Passes;
            }

            foreach ((int v, _) in verdict.Valves.Index().Where(v => !v.Item.Passes))
            {
                ClearanceDistribution valve = EngineEstimate.From(Check(job)).Valves[v];
                double blade = Blades.MinBy(b => Math.Abs(b - valve.Mean + Fingers.MiddleOfLight));
                Read(v, new ValveReadings([job.Touch(v, blade, 1, 0.5)]));
            }
        }
    }

    /// <summary>Does the best thing again and again until nothing pays.</summary>
    private ShimPlan Follow(Job job, ActionMinutes can)
    {
        for (int done = 0; ; done++)
        {
            NextThings next = Advisor.For(new AdviceRequest(Request(job), Blades, can, off: _off));
            if (next.PlanNow || done == MostActions)
            {
                return next.Plan;
            }

            Do(job, next.Next[0], next.Plan);
        }
    }

    private void Do(Job job, AdvisedAction action, ShimPlan plan)
    {
        switch (action.Kind)
        {
            case ActionKind.Blade:
                Read(action.Valve!.Value, new ValveReadings([job.Touch(action.Valve.Value, Math.Round(action.Blades.Sum(), 6), action.Blades.Count, action.Takes)]));
                break;
            case ActionKind.Bucket:
                Read(action.Valve!.Value, new ValveReadings(bucketTurns: [job.Turn(action.Valve.Value, action.Takes)]));
                break;
            case ActionKind.Depth:
                Read(action.Valve!.Value, new ValveReadings(values: [job.ReadDepth(action.Valve.Value)]));
                _off.Add(Job.Engine.Valves[action.Valve.Value].Access);
                break;
            case ActionKind.Micrometer:
                MeasureFromKit(job, action.Shim!, action.Takes);
                break;
            default:
                FitDry(job, action, plan);
                break;
        }
    }

    private static void MeasureFromKit(Job job, AdvisedShim advised, double takes)
    {
        job.Spend(takes);
        Shim? shim = job.Drawer.Find(s => s.Reading == advised.Thickness);
        if (shim is null || advised.Source == ShimSource.Buy)
        {
            shim = job.Buy(advised.Thickness.Millimetres);
            job.Drawer.Add(shim);
        }

        job.Measure(shim);
    }

    private void FitDry(Job job, AdvisedAction action, ShimPlan plan)
    {
        int[] changed = [.. plan.Valves.Index()
            .Where(v => v.Item.Action == ValveAction.Fit && v.Item.Valve.Access == action.Access).Select(v => v.Index)];
        IReadOnlyList<Swap> swaps = Fit(job, changed, plan, job.Dry.Where(v => Job.Engine.Valves[v].Access == action.Access));
        job.FitDry(action.Access!, swaps, action.Takes);
        _off.Remove(action.Access!);
        foreach (int v in changed)
        {
            double blade = Blades.MinBy(b => Math.Abs(b - Job.Engine.Valves[v].Band.Middle));
            Read(v, new ValveReadings([job.Touch(v, blade, 1, 0)]));
        }
    }

    /// <summary>The shims that a plan wants at some valves; from here on what is read is read of them.</summary>
    private List<Swap> Fit(Job job, IReadOnlyList<int> valves, ShimPlan plan, IEnumerable<int> dry)
    {
        List<Swap> swaps = [.. valves.Select(v => new Swap(v, job.Fetch(plan.Valves[v])))];
        EngineCheck check = Check(job);
        swaps.ForEach(s => job.Measure(s.In));
        _changes =
        [
            .. swaps.Select(s => Adjustment.Fitted(s.Valve, job.Fitted[s.Valve].Reading, s.In.Reading)),
            .. dry.Except(valves).Select(Adjustment.SeatedAnew),
        ];
        _before = check;
        Array.Fill(_sinceWork, ValveReadings.None);
        return swaps;
    }

    private void Read(int valve, ValveReadings more) => _sinceWork[valve] = _sinceWork[valve].With(more);

    private EngineCheck Check(Job job) => _before is null
        ? new EngineCheck(Job.Engine, _sinceWork, loss: job.Told)
        : Recheck().ToCheck();

    private Recheck Recheck() => new(_before!, _changes, _sinceWork, ThermalShift.Reference, Seating.Usual);

    private PlanRequest Request(Job job) => job.Request(Check(job), _atWork ? Job.Costs.WithOpen(job.Opened) : Job.Costs);
}
