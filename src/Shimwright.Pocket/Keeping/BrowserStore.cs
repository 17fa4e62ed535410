using System.Runtime.InteropServices.JavaScript;

namespace Shimwright.Pocket.Keeping;

/// <summary>What store.js offers: the browser's own database, which knows keys and text.</summary>
internal static partial class BrowserStore
{
    public const string Module = "store";

    /// <summary>Opens it.</summary>
    /// <returns>Every line that it holds, in the order of their keys.</returns>
    [JSImport("open", Module)]
    public static partial Task<string> OpenAsync();

    /// <summary>What was put there since the last look, by another page of the same browser.</summary>
    [JSImport("since", Module)]
    public static partial Task<string> SinceAsync();

    /// <summary>All lines that are no rows.</summary>
    [JSImport("beside", Module)]
    public static partial Task<string> BesideAsync();

    /// <summary>Puts lines there, all or none; done when the disk has them.</summary>
    [JSImport("put", Module)]
    public static partial Task PutAsync(string lines);

    /// <summary>Something that is kept beside the bench.</summary>
    [JSImport("note", Module)]
    public static partial Task<string?> NoteAsync(string name);

    [JSImport("setNote", Module)]
    public static partial Task SetNoteAsync(string name, string value);

    [JSImport("putPicture", Module)]
    public static partial Task PutPictureAsync(string id, string job, string row, byte[] content, byte[] thumb);

    /// <summary>A picture with its content, or null.</summary>
    [JSImport("picture", Module)]
    public static partial Task<JSObject?> PictureAsync(string id);

    /// <summary>The rows of a job's pictures, or of all.</summary>
    [JSImport("pictures", Module)]
    public static partial Task<string> PicturesAsync(string job);
}
