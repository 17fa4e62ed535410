using Shimwright.Domain.Uncertainty;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Sections;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>One part of a budget; lengths in mm. Degrees are null where they have no bound.</summary>
/// <param name="Part">What was measured.</param>
/// <param name="Value">Its size.</param>
/// <param name="U">Its standard uncertainty.</param>
/// <param name="Degrees">Degrees of freedom of that uncertainty.</param>
/// <param name="Sensitivity">How far the clearance moves with it.</param>
/// <param name="Contribution">What it contributes to the combined standard uncertainty.</param>
/// <param name="Share">Its share of the combined variance.</param>
public sealed record DepthPartRow(string Part, double Value, [property: Bounds(0)] double U, double? Degrees, double Sensitivity, double Contribution, double Share);

/// <summary>How far the errors of two depths go together.</summary>
/// <param name="Valve">The other valve.</param>
/// <param name="R">The correlation coefficient.</param>
public sealed record DepthCorrelationRow(string Valve, double R);

/// <summary>A clearance found from depths, as it was read and not yet combined with anything else; lengths in mm.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Camshaft">The camshaft over it.</param>
/// <param name="Against">The valve of known clearance with which it was compared, or null.</param>
/// <param name="Clearance">The clearance.</param>
/// <param name="U">Its combined standard uncertainty.</param>
/// <param name="Degrees">Effective degrees of freedom.</param>
/// <param name="K">Coverage factor of the 95 % interval.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
/// <param name="Parts">What the uncertainty is made of.</param>
/// <param name="Correlations">The depths that it shares errors with.</param>
public sealed record DepthRow(
    string Valve, string Camshaft, string? Against, double Clearance, [property: Bounds(0)] double U, double? Degrees, double K, double Low, double High,
    IReadOnlyList<DepthPartRow> Parts, IReadOnlyList<DepthCorrelationRow> Correlations)
{
    /// <summary>Effective degrees of freedom below which the 95 % interval is much wider than the estimate will take it.</summary>
    private const double FewDegrees = 10;

    internal static IReadOnlyList<DepthRow>? OfCheck(Job job) =>
        Listed(job) is { Count: > 0 } depths ? [.. depths.Select(d => Of(d, depths))] : null;

    /// <summary>What to bear in mind about depths.</summary>
    internal static IEnumerable<string> Cautions(Job job)
    {
        IReadOnlyList<DepthBudget> depths = Listed(job);
        foreach (string camshaft in depths.Where(d => d.Against is null && !d.Budget.Lines.Any(l => l.Input.Name == "play"))
            .Select(d => d.Camshaft).Distinct(StringComparer.Ordinal))
        {
            yield return $"{camshaft}: no play is stated. Other valves' springs push a camshaft off its saddles by up to its running clearance; "
                + "the depth then reads that much too little. State play, or take the depths against a valve whose clearance is known.";
        }

        foreach (DepthBudget depth in depths.Where(d => d.Budget.EffectiveDegrees < FewDegrees))
        {
            yield return Invariant($"{depth.Valve}: the uncertainty of its depth rests on few readings ({depth.Budget.EffectiveDegrees:0.#} effective degrees of freedom, {depth.Budget.CoverageFactor():0.00} times it for 95 %); the estimate takes it for well known. Repeat the reading that contributes most.");
        }
    }

    /// <summary>The depths that are listed: the newest of each valve, in the order in which they were taken.</summary>
    private static IReadOnlyList<DepthBudget> Listed(Job job) => job.Depths.Count <= Limits.MostDepthsListed
        ? job.Depths
        : [.. job.Depths.Index().GroupBy(d => d.Item.Valve).SelectMany(of => of.TakeLast(Limits.MostDepthsListed)).OrderBy(d => d.Index).Select(d => d.Item)];

    private static DepthRow Of(DepthBudget depth, IReadOnlyList<DepthBudget> all)
    {
        UncertaintyBudget budget = depth.Budget;
        double expanded = budget.Expanded();
        return new(
            depth.Valve,
            depth.Camshaft,
            depth.Against,
            Rounding.Length(budget.Value),
            Rounding.Length(budget.Combined),
            Bounded(budget.EffectiveDegrees),
            Math.Round(budget.CoverageFactor(), 4),
            Rounding.Length(budget.Value - expanded),
            Rounding.Length(budget.Value + expanded),
            [.. budget.Lines.Select(l => new DepthPartRow(
                l.Input.Name, Rounding.Length(l.Input.Value), Rounding.Length(l.Input.Uncertainty), Bounded(l.Input.Degrees),
                l.Sensitivity, Rounding.Length(l.Contribution), Rounding.Chance(budget.ShareOf(l))))],
            [.. all.Where(o => !ReferenceEquals(o, depth)).Select(o => new DepthCorrelationRow(o.Valve, Rounding.Chance(budget.CorrelationWith(o.Budget))))
                .Where(r => r.R != 0)]);
    }

    private static double? Bounded(double? degrees) => degrees is { } d && double.IsFinite(d) ? Math.Round(d, 4) : null;
}
