namespace Shimwright.Pages.Engines;

/// <summary>A part of the card's page.</summary>
public enum CardPart
{
    /// <summary>Its head.</summary>
    Head,

    /// <summary>The kind of valve train.</summary>
    Kind,

    /// <summary>Lever, screw, heat and shims.</summary>
    Train,

    /// <summary>Cylinders and cam events.</summary>
    Crank,

    /// <summary>What wear is usual.</summary>
    Wear,

    /// <summary>Its foot.</summary>
    Foot,
}
