using Microsoft.AspNetCore.Components.Forms;

namespace Shimwright.Pages.Visits;

/// <summary>A file that came with a form, all of it at hand.</summary>
/// <param name="Name">Its name where it comes from.</param>
/// <param name="Content">What is in it.</param>
public sealed record VisitFile(string Name, ReadOnlyMemory<byte> Content) : IBrowserFile
{
    /// <inheritdoc/>
    public DateTimeOffset LastModified => default;

    /// <inheritdoc/>
    public long Size => Content.Length;

    /// <inheritdoc/>
    public string ContentType => "application/octet-stream";

    /// <inheritdoc/>
    /// <exception cref="IOException">The file is larger than is allowed.</exception>
    public Stream OpenReadStream(long maxAllowedSize, CancellationToken cancellationToken) => Size <= maxAllowedSize
        ? new MemoryStream(Content.ToArray(), writable: false)
        : throw new IOException($"The file has {Size} bytes, and {maxAllowedSize} are allowed.");
}
