using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Rechecking;

/// <summary>A re-check: the check before the work, what was done, and what was read afterwards.</summary>
/// <param name="Before">The check before the work.</param>
/// <param name="Changes">What was done, at most one change a valve.</param>
/// <param name="Readings">What was read afterwards, in the engine's order.</param>
/// <param name="Temperature">The engine's temperature at the re-check, °C.</param>
/// <param name="Seating">How well the changes were carried out.</param>
/// <param name="Pass">When a valve passes; the usual rule where it is null.</param>
public sealed record Recheck(
    EngineCheck Before,
    IReadOnlyList<Adjustment> Changes,
    IReadOnlyList<ValveReadings> Readings,
    double Temperature,
    Seating Seating,
    PassRule? Pass = null)
{
    /// <summary>
    /// The re-check as a check of its own: what the work left is its prior, so that a second round can be planned from it and
    /// nothing that was learnt is forgotten.
    /// </summary>
    /// <returns>The check.</returns>
    public EngineCheck ToCheck() => Prediction.Of(this).Check;
}
