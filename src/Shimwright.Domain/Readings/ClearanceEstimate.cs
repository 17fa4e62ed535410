namespace Shimwright.Domain.Readings;

/// <summary>A valve's clearance at 20 °C with its doubt.</summary>
/// <param name="Mean">Expected clearance, mm.</param>
/// <param name="StandardDeviation">Standard deviation, mm.</param>
/// <param name="Low">Lower end of the central 95 % interval, mm.</param>
/// <param name="High">Upper end of the central 95 % interval, mm.</param>
/// <param name="InBand">The chance that the clearance lies in the band.</param>
public sealed record ClearanceEstimate(double Mean, double StandardDeviation, double Low, double High, double InBand)
{
    /// <summary>The chance from which a valve counts as in.</summary>
    public const double SurelyIn = 0.90;

    /// <summary>The chance up to which a valve counts as out.</summary>
    public const double SurelyOut = 0.10;

    /// <summary>In from 0.90, out up to 0.10, unsettled between.</summary>
    public ClearanceStatus Status => StatusOf(InBand);

    /// <summary>What a chance of being in band is called.</summary>
    /// <param name="inBand">The chance.</param>
    /// <returns>In from 0.90, out up to 0.10, unsettled between.</returns>
    public static ClearanceStatus StatusOf(double inBand) => inBand switch
    {
        >= SurelyIn => ClearanceStatus.In,
        <= SurelyOut => ClearanceStatus.Out,
        _ => ClearanceStatus.Unsettled,
    };
}
