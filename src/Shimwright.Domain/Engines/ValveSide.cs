namespace Shimwright.Domain.Engines;

/// <summary>Which side of the combustion chamber a valve serves.</summary>
public enum ValveSide
{
    /// <summary>Inlet side.</summary>
    Intake,

    /// <summary>Exhaust side.</summary>
    Exhaust,
}
