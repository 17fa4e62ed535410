using Shimwright.Domain.Wear.Signs;

namespace Shimwright.Jobs.Guidance;

/// <summary>
/// Signs as a colleague would say them, and what to look at. Causes are common practice of the trade, no source; every one of
/// them is a place to look, not a finding.
/// </summary>
public static class SignWords
{
    /// <summary>What was noticed.</summary>
    /// <param name="kind">The sign.</param>
    /// <param name="valves">The valves it is about, by name.</param>
    /// <returns>One sentence.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such sign.</exception>
    public static string Of(SignKind kind, IReadOnlyList<string> valves)
    {
        string names = string.Join(", ", valves ?? []);
        return kind switch
        {
            SignKind.IntakesFast => $"The intake valves ({names}) lose clearance far faster than the card says, and the exhausts do not.",
            SignKind.FarFromPartner => $"{names}: losing clearance far faster than the valves beside it.",
            SignKind.AllFast => "All valves lose clearance faster than the card says.",
            SignKind.Gaining => $"{names}: gaining clearance, which a seat does not do.",
            SignKind.Step => $"{names}: not where the last check left it; the clearance jumped rather than crept.",
            SignKind.Temperature => "All valves are off the same way, and the engine was not as warm as at the check before.",
            SignKind.RoomNearlyUsed => $"{names}: by the next check the thinnest shim that can be had may be too thick.",
            SignKind.MissedPrediction => $"{names}: changed at the last check, and not where that was to bring it.",
            _ => throw new ArgumentOutOfRangeException(nameof(kind)),
        };
    }

    /// <summary>What to look at.</summary>
    /// <param name="kind">The sign.</param>
    /// <returns>One sentence or two.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such sign.</exception>
    public static string LookAt(SignKind kind) => kind switch
    {
        SignKind.IntakesFast => "Look at the air cleaner, its seal and the boot behind it: dust that gets past them wears intake seats first.",
        SignKind.FarFromPartner => "Look at this valve's seat, guide and stem: a seat breaking up, a worn guide or a bent stem works on one valve. A leak-down test settles it.",
        SignKind.AllFast => "Look at what all valves share: use, dust, heat, mixture and ignition, the valve springs; and whether the card's figures are those of this engine.",
        SignKind.Gaining => "Look at cam lobe, follower or bucket, and at the shim: a hammered shim, or another one than was noted, opens a gap.",
        SignKind.Step => "Feel it again, cold, with the valve on its heel; then look for carbon or dirt under the seat or the shim, a shim that is not the one noted, a bent valve.",
        SignKind.Temperature => "Let it cool to the temperature of the last check and feel again before believing any of it; enter how heat moves this engine's gaps (kappaMmPerC).",
        SignKind.RoomNearlyUsed => "This is a job for valves and seats, not for shims: plan the head, and have the recession measured.",
        SignKind.MissedPrediction => "Look for the wrong shim, one not seated, dirt under it, or a misread blade, before thinking of wear.",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
