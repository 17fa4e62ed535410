namespace Shimwright.Domain.Engines;

/// <summary>Which way wear moves the gaps of a card.</summary>
public enum GapSense
{
    /// <summary>Gaps on the side that opens the valve: they close up as a seat recedes. The usual engine has no others.</summary>
    Opening,

    /// <summary>Gaps at the levers that pull a valve shut, in a desmodromic valve train: they grow as a seat recedes.</summary>
    Closing,
}
