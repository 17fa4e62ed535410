using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Engines;

/// <summary>
/// The maker's cold limits of one valve's clearance, in millimetres at 20 °C; both ends belong to the band.
/// Low is at least 0, High at most 3, and the width at least 0.005.
/// </summary>
public sealed record ClearanceBand
{
    /// <summary>The least lower limit that is taken, mm.</summary>
    public const double Lowest = 0;

    /// <summary>The greatest upper limit that is taken, mm.</summary>
    public const double Highest = 3;

    /// <summary>The least width that is taken, mm.</summary>
    public const double Narrowest = 0.005;

    /// <summary>Rounding that is forgiven where decimal limits meet binary numbers, mm.</summary>
    internal const double Slack = 1e-9;

    /// <summary>Makes the band [low, high].</summary>
    /// <param name="low">Lower limit, mm.</param>
    /// <param name="high">Upper limit, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="low"/> or <paramref name="high"/> is outside its range, or they lie too near to each other.</exception>
    public ClearanceBand(double low, double high)
    {
        Low = Guard.Within(low, Lowest, Highest);
        High = Guard.Within(high, Lowest, Highest);
        Guard.Within(high - low, Narrowest - Slack, Highest, "high - low");
    }

    /// <summary>Lower limit, mm.</summary>
    public double Low { get; }

    /// <summary>Upper limit, mm.</summary>
    public double High { get; }

    /// <summary>The middle of the band, mm.</summary>
    public double Middle => (Low + High) / 2;

    /// <summary>High - Low, mm.</summary>
    public double Width => High - Low;

    /// <summary>Whether two limits are far enough apart for a band.</summary>
    /// <param name="low">Lower limit, mm.</param>
    /// <param name="high">Upper limit, mm.</param>
    public static bool IsWideEnough(double low, double high) => high - low >= Narrowest - Slack;
}
