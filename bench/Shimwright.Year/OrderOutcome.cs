using Shimwright.Bench.Drawer;
using Shimwright.Testing.Shed;

namespace Shimwright.Year;

/// <summary>An order that was sent, and how far it has to reach.</summary>
/// <param name="At">When it was sent.</param>
/// <param name="Until">When the next one has come in.</param>
/// <param name="Due">The engines that the list counted, and how many shims each would want.</param>
/// <param name="Rows">The list.</param>
internal sealed record ShedOrder(DateTime At, DateTime Until, IReadOnlyDictionary<Guid, double> Due, IReadOnlyList<OrderRow> Rows)
{
    public bool Covers(DateTime at) => at > At && at < Until;
}

/// <summary>An engine was checked, and its job wanted shims.</summary>
internal sealed record ShedVisit(DateTime At, Guid Engine, IReadOnlyList<WantedShim> Wanted);

/// <summary>A line of an order list with what came of it.</summary>
internal sealed record LineOutcome(ShedOrder Order, OrderRow Row, int Wanted)
{
    /// <summary>What was free and what was ordered.</summary>
    public int Stock => Row.Free + Row.ToOrder;

    public bool IsCovered => Wanted <= Stock;

    /// <summary>The chance that any is wanted.</summary>
    public double Chance => 1 - Row.Chances[0];

    public double Mean => Row.Chances.Index().Sum(c => c.Index * c.Item);

    public double Variance => Row.Chances.Index().Sum(c => c.Item * (c.Index - Mean) * (c.Index - Mean));
}

/// <summary>What came of an order.</summary>
internal sealed class OrderOutcome
{
    public OrderOutcome(ShedOrder order, IReadOnlyList<ShedVisit> visits)
    {
        Order = order;
        Dictionary<ShimSize, int> wanted = visits.SelectMany(v => v.Wanted).GroupBy(w => w.Size).ToDictionary(g => g.Key, g => g.Count());
        Lines =
        [
            .. order.Rows.Select(r => new LineOutcome(order, r, wanted.GetValueOrDefault(r.Size))),
            // What nobody had foreseen at all counts as foreseen with certainty not to be wanted.
            .. wanted.Where(w => order.Rows.All(r => r.Size != w.Key)).Select(w => new LineOutcome(order, new(w.Key, [1], 0, 0, 1), w.Value)),
        ];
        Dictionary<Guid, ShedVisit[]> byEngine = visits.GroupBy(v => v.Engine).ToDictionary(g => g.Key, g => g.OrderBy(v => v.At).ToArray());
        First = [.. byEngine.Where(e => order.Due.ContainsKey(e.Key)).Select(e => e.Value[0])];
        Again = [.. byEngine.SelectMany(e => e.Value.Skip(1))];
        Unforeseen = [.. byEngine.Where(e => !order.Due.ContainsKey(e.Key)).Select(e => e.Value[0])];
        Stayed = order.Due.Where(d => !byEngine.ContainsKey(d.Key)).Sum(d => d.Value);
    }

    public ShedOrder Order { get; }

    public IReadOnlyList<LineOutcome> Lines { get; }

    /// <summary>The first visit of each engine that was counted.</summary>
    public IReadOnlyList<ShedVisit> First { get; }

    /// <summary>Visits of engines that were there before within the same time.</summary>
    public IReadOnlyList<ShedVisit> Again { get; }

    /// <summary>Visits of engines that were not counted.</summary>
    public IReadOnlyList<ShedVisit> Unforeseen { get; }

    /// <summary>How many shims the counted engines that did not come were to want.</summary>
    public double Stayed { get; }
}
