using System.Security.Cryptography;

namespace Shimwright.Storage.Database;

/// <summary>How far the bench has counted, one row for each kind. A number that was given is never given again.</summary>
internal sealed class CountRow
{
    public string Name { get; set; } = "";

    public int Last { get; set; }
}

/// <summary>A picture. Rows are added, never changed.</summary>
internal sealed class PictureRow : ISummed
{
    public Guid Id { get; set; }

    /// <summary>The job that it is of; null for the workshop's.</summary>
    public Guid? JobId { get; set; }

    public DateTime At { get; set; }

    public string ContentType { get; set; } = "";

    public int Width { get; set; }

    public int Height { get; set; }

    public byte[] Content { get; set; } = [];

    public byte[] Thumb { get; set; } = [];

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    public IEnumerable<object?> Told() =>
        [Id, JobId, At, ContentType, Width, Height, Convert.ToHexString(SHA256.HashData(Content)), Convert.ToHexString(SHA256.HashData(Thumb))];
}
