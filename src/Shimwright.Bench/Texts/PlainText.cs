namespace Shimwright.Bench.Texts;

/// <summary>Text that every store can hold: one of them knows no NUL, and none knows half a character.</summary>
public static class PlainText
{
    /// <summary>The most characters of a name.</summary>
    public const int LongestName = 200;

    /// <summary>The text without NUL, and with a replacement character where half a surrogate pair stands.</summary>
    /// <param name="text">The text.</param>
    /// <returns>Text that can be kept.</returns>
    /// <exception cref="ArgumentNullException">There is no text.</exception>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return string.Concat(text.EnumerateRunes().Where(r => r.Value != 0));
    }

    /// <summary>Whether a text may name a device.</summary>
    /// <param name="device">The text.</param>
    /// <returns>Whether it may.</returns>
    /// <exception cref="ArgumentNullException">There is no text.</exception>
    public static bool CanNameADevice(string device)
    {
        ArgumentNullException.ThrowIfNull(device);
        return device.Length <= LongestName && device.EnumerateRunes().All(r => r.Value is not 0 and not 0xFFFD);
    }
}
