namespace Shimwright.Storage.Database;

/// <summary>A device that was let in. What it shows is kept nowhere, only its hash.</summary>
internal sealed class DeviceRow
{
    public Guid Id { get; set; }

    public string Name { get; set; } = "";

    public string Person { get; set; } = "";

    public int Role { get; set; }

    public bool IsProgram { get; set; }

    /// <summary>SHA-256 of the token, in hexadecimal.</summary>
    public string TokenHash { get; set; } = "";

    public DateTime LetInAt { get; set; }

    public DateTime UsedAt { get; set; }

    public DateTime? RevokedAt { get; set; }
}

/// <summary>A code that lets one device in.</summary>
internal sealed class DeviceCodeRow
{
    /// <summary>SHA-256 of the code, in hexadecimal.</summary>
    public string Hash { get; set; } = "";

    public int Role { get; set; }

    public DateTime EndsAt { get; set; }

    public DateTime? UsedAt { get; set; }
}

/// <summary>The door by which devices come in: one row.</summary>
internal sealed class DoorRow
{
    public int Id { get; set; }

    public int WrongCodes { get; set; }
}
