namespace Shimwright.Jobs.Written;

/// <summary>A size with its standard uncertainty, mm.</summary>
/// <param name="Value">The size.</param>
/// <param name="U">Its standard uncertainty.</param>
/// <param name="Df">Degrees of freedom of the uncertainty, where it rests on a few readings.</param>
public sealed record MeasuredPart(double Value, double U, double? Df = null);
