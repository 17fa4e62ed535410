using Shimwright.Bench.Texts;
using Shimwright.Jobs.Settings;

namespace Shimwright.Bench.Settings;

/// <summary>What settings must be before they are kept.</summary>
public static class SettingsRules
{
    /// <summary>Refuses settings that have problems, and a device without a name.</summary>
    /// <param name="settings">The settings.</param>
    /// <param name="device">The device.</param>
    /// <exception cref="ArgumentException">The settings have problems, or the device has no name.</exception>
    public static void Check(BenchSettings settings, string device)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (settings.Problems().Count > 0 || !PlainText.CanNameADevice(device))
        {
            throw new ArgumentException("Settings are checked, and the device has a name, before they are saved.", nameof(settings));
        }
    }
}
