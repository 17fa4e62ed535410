namespace Shimwright.Bench.Devices;

/// <summary>What became of a code that was typed.</summary>
public enum EntryOutcome
{
    /// <summary>The device is in.</summary>
    LetIn,

    /// <summary>There is no such code, it was used, or it has ended: which, nobody is told.</summary>
    WrongCode,

    /// <summary>Too many wrong codes were typed; an owner opens the door again.</summary>
    Closed,
}

/// <summary>What became of a code that was typed.</summary>
/// <param name="Outcome">What became of it.</param>
/// <param name="Device">The device that was let in, or null.</param>
/// <param name="Token">What the device shows from now on; it is kept nowhere else. Null where none was let in.</param>
public sealed record LetIn(EntryOutcome Outcome, Device? Device, string? Token);

/// <summary>How the door stands.</summary>
/// <param name="WrongCodes">How many wrong codes were typed since an owner last opened it.</param>
/// <param name="IsClosed">Whether it is closed until an owner opens it.</param>
public sealed record DoorState(int WrongCodes, bool IsClosed)
{
    /// <summary>After so many wrong codes the door closes.</summary>
    public const int MostWrong = 100;
}
