using Microsoft.AspNetCore.Http;

namespace Shimwright.Web.Shell;

/// <summary>A file that came with a form.</summary>
internal static class SentFile
{
    /// <summary>What is in it; null where none was chosen or it is empty. How big it may be is seen to before it is read.</summary>
    public static async Task<byte[]?> ReadAsync(IFormFile? file, CancellationToken cancel)
    {
        if (file is not { Length: > 0 })
        {
            return null;
        }

        using var bytes = new MemoryStream();
        await file.CopyToAsync(bytes, cancel);
        return bytes.ToArray();
    }
}
