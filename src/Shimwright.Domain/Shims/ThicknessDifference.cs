namespace Shimwright.Domain.Shims;

/// <summary>A difference of two thicknesses; the systematic part of one instrument has cancelled.</summary>
/// <param name="Millimetres">The difference, mm.</param>
/// <param name="Uncertainty">Its standard uncertainty, mm.</param>
public readonly record struct ThicknessDifference(double Millimetres, double Uncertainty);
