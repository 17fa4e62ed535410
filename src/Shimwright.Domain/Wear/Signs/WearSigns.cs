namespace Shimwright.Domain.Wear.Signs;

/// <summary>
/// Looks for signs at the last check of an engine. Each rule is a test of "nothing is wrong" whose evidence is a tail
/// probability; what is said is limited by that probability, not by how far out a clearance is.
/// </summary>
public static class WearSigns
{
    /// <summary>The tail probability from which a sign is said. Common practice, no source.</summary>
    public const double UsualLimit = 0.0025;

    /// <summary>Signs of an engine.</summary>
    /// <param name="wear">What its checks say.</param>
    /// <param name="thinnest">The thinnest shim that can be had, mm, or null.</param>
    /// <param name="limit">The tail probability from which a sign is said.</param>
    /// <returns>The signs, in the order of <see cref="SignKind"/>.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="wear"/> is null.</exception>
    public static IReadOnlyList<WearSign> Of(EngineWear wear, double? thinnest = null, double limit = UsualLimit)
    {
        ArgumentNullException.ThrowIfNull(wear);
        var scene = new SignScene(wear);
        return
        [
            .. IntakesFastSign.Look(scene, limit),
            .. PartnerSign.Look(scene, limit),
            .. AllFastSign.Look(scene, limit),
            .. GainingSign.Look(scene, limit),
            .. StepSign.Look(scene, limit),
            .. TemperatureSign.Look(scene, limit),
            .. RoomSign.Look(wear, thinnest),
            .. MissedPredictionSign.Look(scene, limit),
        ];
    }
}
