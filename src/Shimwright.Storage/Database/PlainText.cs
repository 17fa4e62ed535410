namespace Shimwright.Storage.Database;

/// <summary>Text that every database can hold: PostgreSQL knows no NUL, and neither knows half a character.</summary>
internal static class PlainText
{
    /// <summary>The text without NUL, and with a replacement character where half a surrogate pair stands.</summary>
    public static string Of(string text) => string.Concat(text.EnumerateRunes().Where(r => r.Value != 0));

    /// <summary>Whether a text may name a device.</summary>
    public static bool CanNameADevice(string device) =>
        device.Length <= BenchContext.LongestName && device.EnumerateRunes().All(r => r.Value is not 0 and not 0xFFFD);
}
