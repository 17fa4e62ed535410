namespace Shimwright.Bench.Devices;

/// <summary>What a device may do. Each may what those before it may.</summary>
public enum DeviceRole
{
    /// <summary>Looks and prints.</summary>
    Reader = 1,

    /// <summary>Does all the work.</summary>
    Mechanic = 2,

    /// <summary>Lets devices in, changes settings, makes and brings back copies, discards.</summary>
    Owner = 3,
}
