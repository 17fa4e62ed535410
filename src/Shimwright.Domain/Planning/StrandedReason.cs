namespace Shimwright.Domain.Planning;

/// <summary>Why a valve cannot be brought into its band: one of the reasons below.</summary>
public abstract record StrandedReason
{
    private protected StrandedReason()
    {
    }
}

/// <summary>A screw set by feel lands in the band too rarely.</summary>
/// <param name="Width">How wide the band is, mm.</param>
/// <param name="FitFloor">The least chance of landing in it that is taken.</param>
public sealed record BandTooNarrow(double Width, double FitFloor) : StrandedReason;

/// <summary>There is no shim but the valve's own.</summary>
/// <param name="Wanted">The thickness that would bring the valve to the middle of its band, mm.</param>
public sealed record NothingAtHand(double Wanted) : StrandedReason;

/// <summary>There are shims, and none would do.</summary>
/// <param name="Wanted">The thickness that would bring the valve to the middle of its band, mm.</param>
/// <param name="Thinnest">The thinnest there is in the engine, the drawer and the shop, mm.</param>
/// <param name="Thickest">The thickest, mm.</param>
public sealed record NoSizeWouldDo(double Wanted, double Thinnest, double Thickest) : StrandedReason;

/// <summary>There are shims that would do, and other valves have them.</summary>
/// <param name="Wanted">The thickness that would bring the valve to the middle of its band, mm.</param>
/// <param name="Sizes">The thicknesses that would do, and who has them.</param>
public sealed record SizesTaken(double Wanted, IReadOnlyList<SizeTaken> Sizes) : StrandedReason;

/// <summary>A thickness that other valves have.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="Holders">Who has the shims of that thickness.</param>
public sealed record SizeTaken(double Thickness, IReadOnlyList<ShimHolder> Holders);

/// <summary>A valve that has a shim in a plan.</summary>
/// <param name="Valve">Its place in the engine, from 0.</param>
/// <param name="Keeps">Whether the shim is its own and stays in it; else it takes the shim.</param>
/// <param name="FromValve">The place of the valve that it takes the shim from; null for its own and where it comes from the drawer.</param>
public readonly record struct ShimHolder(int Valve, bool Keeps, int? FromValve);
