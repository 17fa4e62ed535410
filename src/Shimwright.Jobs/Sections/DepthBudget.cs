using Shimwright.Domain.Uncertainty;

namespace Shimwright.Jobs.Sections;

/// <summary>A clearance that was found from depths, with its budget.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Camshaft">The camshaft over it.</param>
/// <param name="Against">The valve of known clearance with which it was compared; null where the camshaft's own sizes were used.</param>
/// <param name="Budget">The clearance, mm, and what its uncertainty is made of.</param>
public sealed record DepthBudget(string Valve, string Camshaft, string? Against, UncertaintyBudget Budget);
