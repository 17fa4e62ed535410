namespace Shimwright.Storage.Database;

/// <summary>A job that was removed for good. Its facts may be taken away, and nobody else's; nothing of it is left but that it was.</summary>
internal sealed class RemovedJobRow
{
    public Guid JobId { get; set; }

    public DateTime At { get; set; }
}
