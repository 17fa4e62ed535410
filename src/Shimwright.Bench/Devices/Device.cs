namespace Shimwright.Bench.Devices;

/// <summary>A device, or a program, that was let in.</summary>
/// <param name="Id">The device.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Person">Who works with it; empty for a program.</param>
/// <param name="Role">What it may do.</param>
/// <param name="IsProgram">Whether it is a program.</param>
/// <param name="LetInAt">When it was let in, UTC.</param>
/// <param name="UsedAt">When it was last used, to the hour, UTC.</param>
/// <param name="RevokedAt">When it was sent away, UTC, or null.</param>
public sealed record Device(Guid Id, string Name, string Person, DeviceRole Role, bool IsProgram, DateTime LetInAt, DateTime UsedAt, DateTime? RevokedAt)
{
    /// <summary>How long a device that is not used is remembered.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromDays(180);

    /// <summary>What it is called among people: the person and the device, or the program.</summary>
    public string Title => IsProgram ? Name : $"{Person}, {Name}";

    /// <summary>Until when it is remembered where it is not used again, UTC.</summary>
    public DateTime EndsAt => UsedAt + Kept;

    /// <summary>Whether it is let in at a moment.</summary>
    /// <param name="now">The moment, UTC.</param>
    /// <returns>Whether it is.</returns>
    public bool IsIn(DateTime now) => RevokedAt is null && now < EndsAt;
}

/// <summary>A device that showed its token.</summary>
/// <param name="Device">The device.</param>
/// <param name="IsRenewed">Whether it is remembered for longer from now on.</param>
public sealed record FoundDevice(Device Device, bool IsRenewed);
