namespace Shimwright.Domain.Readings;

/// <summary>What is known of a valve against its band.</summary>
public enum ClearanceStatus
{
    /// <summary>In band with a chance of 0.90 or more.</summary>
    In,

    /// <summary>Not known well enough either way.</summary>
    Unsettled,

    /// <summary>In band with a chance of 0.10 or less.</summary>
    Out,
}
