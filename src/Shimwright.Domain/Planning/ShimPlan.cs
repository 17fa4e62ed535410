using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Planning;

/// <summary>Shims of one size to buy.</summary>
/// <param name="Thickness">The size.</param>
/// <param name="Count">How many.</param>
public sealed record Purchase(Thickness Thickness, int Count);

/// <summary>One real plan: what is done at every valve, what has to be opened and bought, how sure it is and what it costs.</summary>
public sealed class ShimPlan
{
    private readonly Lazy<double> _chanceAll;

    internal ShimPlan(
        IReadOnlyList<PlannedValve> valves,
        IReadOnlyList<string> opened,
        IReadOnlyList<StrandedValve> stranded,
        double workMinutes,
        double toComeMinutes,
        Func<double> chanceAll)
    {
        Valves = valves;
        Opened = opened;
        Stranded = stranded;
        WorkMinutes = workMinutes;
        ToComeMinutes = toComeMinutes;
        _chanceAll = new Lazy<double>(chanceAll);
        Bought = [.. valves.Where(v => v.Source == ShimSource.Buy)
            .GroupBy(v => v.To!)
            .OrderBy(g => g.Key.Millimetres)
            .Select(g => new Purchase(g.Key, g.Count()))];
    }

    /// <summary>What is done at each valve, in the engine's order.</summary>
    public IReadOnlyList<PlannedValve> Valves { get; }

    /// <summary>The access groups that have to be opened, in the engine's order.</summary>
    public IReadOnlyList<string> Opened { get; }

    /// <summary>The valves that cannot be helped.</summary>
    public IReadOnlyList<StrandedValve> Stranded { get; }

    /// <summary>What has to be bought, thinnest first.</summary>
    public IReadOnlyList<Purchase> Bought { get; }

    /// <summary>The work: what is opened, changed and bought, minutes.</summary>
    public double WorkMinutes { get; }

    /// <summary>What is to come after it: another round, lifting and changing once more, each as often as it is expected, minutes.</summary>
    public double ToComeMinutes { get; }

    /// <summary>Work and what is to come, minutes.</summary>
    public double Minutes => WorkMinutes + ToComeMinutes;

    /// <summary>The chance that every valve that is not stranded is in band at the first re-check, the shared cause counted.</summary>
    public double ChanceAll => _chanceAll.Value;
}

/// <summary>The plan to take, and what stands beside it.</summary>
/// <param name="Chosen">The plan whose work and what is to come are least together.</param>
/// <param name="Alternatives">All plans worth considering, least work first, the chosen one among them (the same object).</param>
/// <param name="Estimate">What the plans rest on.</param>
public sealed record PlanChoice(ShimPlan Chosen, IReadOnlyList<ShimPlan> Alternatives, Readings.EngineEstimate Estimate)
{
    /// <summary>
    /// How many minutes less than the chosen plan another may come to, where the search ended before every plan was ruled out; 0 where the
    /// chosen one is proven best.
    /// </summary>
    public double Unproven { get; init; }
}
