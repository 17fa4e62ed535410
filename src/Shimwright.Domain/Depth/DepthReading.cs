using Shimwright.Domain.Readings;
using Shimwright.Domain.Uncertainty;

namespace Shimwright.Domain.Depth;

/// <summary>
/// The clearance of a valve from depths, with the camshaft lifted: known even where no blade enters, and negative where the
/// valve is held open. Under a direct-acting camshaft, by geometry:
/// clearance = bucket - shim - (saddle - journal/2) - base circle/2 + play.
/// </summary>
public static class DepthReading
{
    /// <summary>The clearance from the depth and the camshaft's own sizes.</summary>
    /// <param name="valve">What was measured at the valve.</param>
    /// <param name="camshaft">The camshaft over it.</param>
    /// <returns>The clearance, mm, with its budget.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valve"/> or <paramref name="camshaft"/> is null.</exception>
    public static UncertaintyBudget Under(ValveDepth valve, Camshaft camshaft)
    {
        ArgumentNullException.ThrowIfNull(valve);
        ArgumentNullException.ThrowIfNull(camshaft);
        return UncertaintyBudget.OfSum([.. valve.Lines(1), .. camshaft.Lines()]);
    }

    /// <summary>
    /// The clearance from that of another valve under the same camshaft and the difference of the two depths; saddle, journal,
    /// base circle and play are the same for both and cancel.
    /// </summary>
    /// <param name="valve">What was measured at the valve.</param>
    /// <param name="known">What was measured at the other valve.</param>
    /// <param name="clearance">The other valve's clearance, mm, found with a blade before the camshaft was lifted.</param>
    /// <returns>The clearance, mm, with its budget.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valve"/>, <paramref name="known"/> or <paramref name="clearance"/> is null.</exception>
    public static UncertaintyBudget Against(ValveDepth valve, ValveDepth known, InputQuantity clearance)
    {
        ArgumentNullException.ThrowIfNull(valve);
        ArgumentNullException.ThrowIfNull(known);
        ArgumentNullException.ThrowIfNull(clearance);
        return UncertaintyBudget.OfSum([new(clearance, 1), .. valve.Lines(1), .. known.Lines(-1)]);
    }

    /// <summary>The result as a reading of the valve.</summary>
    /// <param name="budget">The clearance with its budget; its combined uncertainty at most 0.2 mm.</param>
    /// <returns>The direct value; a combined uncertainty below 0.001 mm counts as that.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="budget"/> is null.</exception>
    public static DirectValue ToDirectValue(UncertaintyBudget budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        return new(budget.Value, Math.Max(DirectValue.LeastUncertainty, budget.Combined));
    }
}
