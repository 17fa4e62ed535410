using Microsoft.AspNetCore.Components.Forms;

namespace Shimwright.Pages.Visits;

/// <summary>A file that came with a form.</summary>
internal static class SentFile
{
    /// <summary>What is in it; null where none was chosen or it is empty. How big it may be is seen to before it is read.</summary>
    public static async Task<byte[]?> ReadAsync(IBrowserFile? file, CancellationToken cancel)
    {
        if (file is not { Size: > 0 })
        {
            return null;
        }

        using var bytes = new MemoryStream();
        using Stream content = file.OpenReadStream(file.Size, cancel);
        await content.CopyToAsync(bytes, cancel);
        return bytes.ToArray();
    }
}
