using System.Security.Cryptography;

namespace Shimwright.Bench.Devices;

/// <summary>A code by which one device is let in, once.</summary>
/// <param name="Text">The code, as it is read out and typed.</param>
/// <param name="Role">What the device may do.</param>
/// <param name="EndsAt">Until when it may be used, UTC.</param>
public sealed record OneTimeCode(string Text, DeviceRole Role, DateTime EndsAt)
{
    /// <summary>How long a code may be used.</summary>
    public static readonly TimeSpan Lasts = TimeSpan.FromMinutes(10);

    /// <summary>How many letters and digits it has.</summary>
    public const int Length = 8;

    /// <summary>No two of these look alike on a screen or sound alike when read out.</summary>
    private const string Letters = "234679ACDEFGHJKMNPQRTVWXYZ";

    /// <summary>A code that nobody can foresee.</summary>
    /// <returns>Its letters and digits.</returns>
    public static string NewText() => RandomNumberGenerator.GetString(Letters, Length);

    /// <summary>A code as it is shown, in two halves.</summary>
    /// <param name="text">The code.</param>
    /// <returns>Both halves.</returns>
    /// <exception cref="ArgumentNullException">There is no code.</exception>
    public static string Shown(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length == Length ? $"{text[..(Length / 2)]} {text[(Length / 2)..]}" : text;
    }

    /// <summary>What was typed, without spaces, dashes and small letters.</summary>
    /// <param name="typed">What was typed.</param>
    /// <returns>The letters and digits; they may be those of no code.</returns>
    public static string Read(string? typed) => new([.. (typed ?? "").Where(char.IsAsciiLetterOrDigit).Select(char.ToUpperInvariant).Take(Length + 1)]);
}
