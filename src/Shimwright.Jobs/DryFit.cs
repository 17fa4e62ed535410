using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Readings;

namespace Shimwright.Jobs;

/// <summary>A dry fit in the middle of the work.</summary>
/// <param name="Access">The access group.</param>
/// <param name="Changes">What was done since the feeling before it.</param>
/// <param name="Readings">What was felt, in the engine's order.</param>
public sealed record DryFit(string Access, IReadOnlyList<Adjustment> Changes, IReadOnlyList<ValveReadings> Readings);
