namespace Shimwright.Domain.Readings;

/// <summary>Weights on a valve's grid that turn its densities into the chance to be in band and stay there for a while.</summary>
/// <param name="Smooth">For the smooth part.</param>
/// <param name="Stray">For the stray part.</param>
internal sealed record SurvivalWeights(double[] Smooth, double[] Stray);
