using System.Globalization;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Devices;

/// <summary>What is written beside everything that a device saves: the person, the device, and which of several of that name. It says who even where devices are not known.</summary>
public static class DeviceSignature
{
    /// <summary>The most characters of a person's or device's name.</summary>
    public const int LongestName = 60;

    private const string Between = " \u00b7 ";
    private const int Digits = 8;

    /// <summary>What a device writes.</summary>
    /// <param name="device">The device.</param>
    /// <returns>The signature.</returns>
    /// <exception cref="ArgumentNullException">There is no device.</exception>
    public static string Of(Device device)
    {
        ArgumentNullException.ThrowIfNull(device);
        string[] parts = [device.Person, device.Name, ShortOf(device)];
        return string.Join(Between, parts.Where(p => p.Length > 0));
    }

    /// <summary>What tells a device from others of its name, short enough to be typed.</summary>
    /// <param name="device">The device.</param>
    /// <returns>Eight letters and digits.</returns>
    /// <exception cref="ArgumentNullException">There is no device.</exception>
    public static string ShortOf(Device device)
    {
        ArgumentNullException.ThrowIfNull(device);
        return device.Id.ToString("N", CultureInfo.InvariantCulture)[^Digits..];
    }

    /// <summary>The person who signed.</summary>
    /// <param name="signature">What stands beside what was saved.</param>
    /// <returns>The name; null where it is not said, as with a device that was never let in.</returns>
    public static string? PersonOf(string? signature) =>
        signature?.Split(Between) is [{ Length: > 0 } person, _, { Length: Digits } id] && id.All(char.IsAsciiHexDigit) ? person : null;

    /// <summary>What is wrong with a name.</summary>
    /// <param name="label">What the field is called.</param>
    /// <param name="name">The name.</param>
    /// <returns>The problem, or null.</returns>
    public static JobProblem? Problem(string label, string? name) =>
        string.IsNullOrWhiteSpace(name) ? new(label, "missing", $"1 to {LongestName} characters")
        : name.Trim().Length > LongestName || name.Contains(Between, StringComparison.Ordinal) || name.Any(char.IsControl) || !PlainText.CanNameADevice(name)
            ? new(label, $"found {(name.Length > LongestName ? $"{name.Length} characters" : $"\"{name}\"")}", $"1 to {LongestName} characters on one line, without \"{Between.Trim()}\"")
        : null;
}
