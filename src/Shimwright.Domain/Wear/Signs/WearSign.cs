namespace Shimwright.Domain.Wear.Signs;

/// <summary>What a sign is about.</summary>
public enum SignKind
{
    /// <summary>All intake valves lose clearance faster than usual, and the exhaust valves do not.</summary>
    IntakesFast,

    /// <summary>One valve loses clearance far faster than its partners.</summary>
    FarFromPartner,

    /// <summary>All valves lose clearance faster than usual.</summary>
    AllFast,

    /// <summary>A valve gains clearance.</summary>
    Gaining,

    /// <summary>A valve's clearance has jumped between two checks.</summary>
    Step,

    /// <summary>All valves are off the same way, and the engine was not at the temperature of the check before.</summary>
    Temperature,

    /// <summary>The shims will soon be as thin as they can be had.</summary>
    RoomNearlyUsed,

    /// <summary>A valve that was changed is not where the change was to bring it.</summary>
    MissedPrediction,
}

/// <summary>A sign: something in the clearances that would seldom look so by chance.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Valves">The valves it is about, by their places in the engine.</param>
/// <param name="Evidence">
/// A tail probability: how often an engine with nothing wrong would look so, or stranger; small is strong. For
/// <see cref="SignKind.RoomNearlyUsed"/> the chance that it comes to that within an interval.
/// </param>
public sealed record WearSign(SignKind Kind, IReadOnlyList<int> Valves, double Evidence);
