namespace Shimwright.Domain.Readings;

/// <summary>What a blade in the gap feels like, tightest first.</summary>
public enum Feel
{
    /// <summary>The blade will not enter.</summary>
    No,

    /// <summary>The blade enters with heavy drag.</summary>
    Firm,

    /// <summary>The blade slides with light, even drag.</summary>
    Light,

    /// <summary>The blade slides with no drag.</summary>
    Loose,
}
