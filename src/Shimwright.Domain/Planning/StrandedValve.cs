namespace Shimwright.Domain.Planning;

/// <summary>A valve that cannot be brought into its band with what there is.</summary>
/// <param name="Valve">Its place in the engine, from 0.</param>
/// <param name="Reason">Why.</param>
public sealed record StrandedValve(int Valve, StrandedReason Reason);
