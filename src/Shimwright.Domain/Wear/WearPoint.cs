namespace Shimwright.Domain.Wear;

/// <summary>One valve at one check.</summary>
/// <param name="Clock">The engine's clock.</param>
/// <param name="Predicted">What was expected before the check was read.</param>
/// <param name="Found">What is known with the check's readings.</param>
/// <param name="Left">What is known after the changes that were made then.</param>
/// <param name="WasRead">Whether the check has a reading of the valve.</param>
/// <param name="WasSet">Whether a screw was set then, so that the gap before says nothing about the gap after.</param>
/// <param name="Shift">What the changes made then were to add to the clearance, mm.</param>
public sealed record WearPoint(
    double Clock, WearState Predicted, WearState Found, WearState Left, bool WasRead, bool WasSet, double Shift);
