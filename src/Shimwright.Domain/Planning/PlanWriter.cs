using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Planning;

/// <summary>Turns choices into plans that can be read, and computes what they share once.</summary>
internal sealed class PlanWriter(PlanRequest request, EngineEstimate estimate, OptionTable options)
{
    private readonly Dictionary<(int Valve, ValveOption Option), double[]> _chances = new(ByReference.Comparer);
    private readonly Dictionary<(int Valve, ValveOption Option), PlannedValve> _valves = new(ByReference.Comparer);
    private readonly ClearanceEstimate?[] _estimates = new ClearanceEstimate?[estimate.Valves.Count];

    public ShimPlan Write(PlanPoint point)
    {
        ValveOption[] choice = point.Choice;
        var reasons = new StrandedReasons(request, estimate, options, choice);
        string[] opened = [.. request.Engine.AccessGroups.Where(
            g => choice.Index().Any(c => c.Item.IsChange && request.Engine.Valves[c.Index].Access == g))];
        return new ShimPlan(
            [.. choice.Select((option, v) => Valve(v, option))],
            opened,
            [.. choice.Index().Where(c => c.Item.IsStranded)
                .Select(c => new StrandedValve(c.Index, reasons.Of(c.Index)))],
            point.Work,
            point.ToCome,
            () => estimate.ChanceOfAll([.. choice.Select((option, v) => GivenLoss(v, option))]));
    }

    private PlannedValve Valve(int v, ValveOption option)
    {
        if (!_valves.TryGetValue((v, option), out PlannedValve? valve))
        {
            Thickness? from = request.Fitted.Count > 0 ? request.Fitted[v] : null;
            ClearanceEstimate before = _estimates[v] ??= estimate.Valves[v].Summarise();
            valve = new(request.Engine.Valves[v], request.Engine.Valvetrain, estimate.Valves[v], before, from, option);
            _valves.Add((v, option), valve);
        }

        return valve;
    }

    private double[]? GivenLoss(int v, ValveOption option)
    {
        if (option.IsStranded)
        {
            return null;
        }

        if (!_chances.TryGetValue((v, option), out double[]? chances))
        {
            chances = option.Action switch
            {
                ValveAction.Keep when !option.IsSeatedAnew => estimate.KeptGivenCause(v, options.StayingOf(v)),
                ValveAction.Keep or ValveAction.Fit => estimate.ChangedGivenCause(v, options.LandingFromEach(v, option.Change)),
                _ => estimate.FixedGivenCause(v, option.Chance),
            };
            _chances.Add((v, option), chances);
        }

        return chances;
    }

    private sealed class ByReference : IEqualityComparer<(int Valve, ValveOption Option)>
    {
        public static ByReference Comparer { get; } = new();

        public bool Equals((int Valve, ValveOption Option) x, (int Valve, ValveOption Option) y) =>
            x.Valve == y.Valve && ReferenceEquals(x.Option, y.Option);

        public int GetHashCode((int Valve, ValveOption Option) obj) =>
            HashCode.Combine(obj.Valve, System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(obj.Option));
    }
}
