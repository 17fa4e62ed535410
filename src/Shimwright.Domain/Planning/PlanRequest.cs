using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Planning;

/// <summary>All that a plan rests on.</summary>
public sealed record PlanRequest
{
    /// <summary>Makes a request.</summary>
    /// <param name="check">The check.</param>
    /// <param name="fitted">The thickness found at each valve, in the engine's order; empty for a screw.</param>
    /// <param name="stock">Drawer and shop.</param>
    /// <param name="costs">Minutes and prices.</param>
    /// <param name="rules">Floors, and how well a change is carried out.</param>
    /// <param name="horizon">How long the clearances are to stay in band; null where only the re-check counts.</param>
    /// <exception cref="ArgumentNullException"><paramref name="check"/> or <paramref name="fitted"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="fitted"/> or the rates of <paramref name="horizon"/> have not one entry a valve.</exception>
    public PlanRequest(
        EngineCheck check, IReadOnlyList<Thickness> fitted, Stock? stock = null, PlanCosts? costs = null, PlanRules? rules = null,
        WearHorizon? horizon = null)
    {
        ArgumentNullException.ThrowIfNull(check);
        ArgumentNullException.ThrowIfNull(fitted);
        ArgumentOutOfRangeException.ThrowIfNotEqual(
            fitted.Count, check.Engine.Valvetrain.HasShims ? check.Engine.Valves.Count : 0, nameof(fitted));
        Check = check;
        Fitted = [.. fitted];
        Stock = stock ?? Stock.Nothing;
        Costs = costs ?? new PlanCosts();
        Rules = rules ?? PlanRules.Default;
        Horizon = horizon;
        ArgumentOutOfRangeException.ThrowIfNotEqual(
            horizon?.Rates.Count ?? check.Engine.Valves.Count, check.Engine.Valves.Count, nameof(horizon));
    }

    /// <summary>The check.</summary>
    public EngineCheck Check { get; }

    /// <summary>The thickness found at each valve, in the engine's order; empty for a screw.</summary>
    public IReadOnlyList<Thickness> Fitted { get; }

    /// <summary>Drawer and shop.</summary>
    public Stock Stock { get; }

    /// <summary>Minutes and prices.</summary>
    public PlanCosts Costs { get; }

    /// <summary>Floors and seating.</summary>
    public PlanRules Rules { get; }

    /// <summary>How long the clearances are to stay in band; null where only the re-check counts.</summary>
    public WearHorizon? Horizon { get; }

    /// <summary>The engine.</summary>
    public Engine Engine => Check.Engine;

    /// <summary>
    /// What it costs to change a valve once more: the swap and the cheapest size for sale, minutes. Nothing where no size is for
    /// sale: then there is none to change to. A screw needs none.
    /// </summary>
    public double Again => !Engine.Valvetrain.HasShims ? Costs.Swap
        : Stock.Sizes.Count > 0 ? Costs.Swap + (Stock.Sizes.Min(s => s.Price) * Costs.MinutesPerCurrency)
        : 0;

    /// <summary>The same with another check of the engine.</summary>
    internal PlanRequest With(EngineCheck check) => new(check, Fitted, Stock, Costs, Rules, Horizon);

    /// <summary>The same with one more access group open.</summary>
    internal PlanRequest WithOpen(string access) => new(Check, Fitted, Stock, Costs.WithOpen([access]), Rules, Horizon);

    /// <summary>The same with other shims in the engine and at hand.</summary>
    internal PlanRequest With(IReadOnlyList<Thickness> fitted, Stock stock) => new(Check, fitted, stock, Costs, Rules, Horizon);

    /// <summary>The least error with which any valve of this engine can be moved, mm.</summary>
    internal double FinestChange
    {
        get
        {
            IEnumerable<Thickness> all = Fitted
                .Concat(Stock.Drawer.Select(d => d.Thickness))
                .Concat(Stock.Sizes.Take(1).Select(s => s.Thickness));
            double repeatability = all.Select(t => t.By.Random).DefaultIfEmpty(Seating.SettingFeel).Min();
            return Rules.Seating.ChangeUncertainty(Leverage.Of(Engine.Valvetrain).AtTheGap(Math.Sqrt(2)) * repeatability);
        }
    }
}
