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
            SignKind.IntakesFast => $"The intake valves ({names}) lose clearance far faster than the card says. The exhaust valves do not.",
            SignKind.FarFromPartner => $"{names}: loses clearance far faster than the valves beside it.",
            SignKind.AllFast => "All valves lose clearance faster than the card says.",
            SignKind.Gaining => $"{names}: gains clearance, which a seat does not do.",
            SignKind.Step => $"{names}: the clearance has jumped since the last check.",
            SignKind.Temperature => "All valves are off the same way. The engine temperature differs from the last check.",
            SignKind.RoomNearlyUsed => $"{names}: the thinnest shim available may be too thick by the next check.",
            SignKind.MissedPrediction => $"{names}: changed at the last check, but the clearance is not as planned.",
            _ => throw new ArgumentOutOfRangeException(nameof(kind)),
        };
    }

    /// <summary>What to look at.</summary>
    /// <param name="kind">The sign.</param>
    /// <returns>One sentence or two.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such sign.</exception>
    public static string LookAt(SignKind kind) => kind switch
    {
        SignKind.IntakesFast => "Check the air cleaner, its seal and the boot behind it. Dust that gets past them wears intake seats first.",
        SignKind.FarFromPartner => "Check this valve's seat, guide and stem. A leak-down test settles it.",
        SignKind.AllFast => "Check what all valves share: dust, heat, mixture, ignition and valve springs. Check the wear figures on the card too.",
        SignKind.Gaining => "Check the cam lobe, the follower or bucket, and the shim. A hammered or wrong shim opens a gap.",
        SignKind.Step => "Feel it again, cold, on the heel of the cam. Then look for dirt under the seat or shim, a wrong shim, or a bent valve.",
        SignKind.Temperature => "Let the engine cool to the temperature of the last check and feel again. Put the gap change per °C on the card.",
        SignKind.RoomNearlyUsed => "Plan work on valves and seats, not shims. Have the recession measured.",
        SignKind.MissedPrediction => "Look for the wrong shim, a shim not seated, dirt under it, or a misread blade before you suspect wear.",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
