namespace Shimwright.Pages.Visits;

/// <summary>How much may be sent to a page whose forms bring files; to every other page it is what the host allows usually.</summary>
/// <param name="bytes">The largest body, bytes.</param>
[AttributeUsage(AttributeTargets.Class)]
public sealed class LargestBodyAttribute(long bytes) : Attribute
{
    /// <summary>The largest body, bytes.</summary>
    public long Bytes { get; } = bytes;
}
