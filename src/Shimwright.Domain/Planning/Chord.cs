namespace Shimwright.Domain.Planning;

/// <summary>
/// A straight line below scale·(1 - exp(-doubt)) over an interval of the doubt, through its ends: the chance that something fails is
/// concave in the doubt.
/// </summary>
/// <param name="Scale">What failing counts.</param>
/// <param name="Slope">Of the line.</param>
/// <param name="Offset">Of the line, at doubt 0.</param>
internal readonly record struct Chord(double Scale, double Slope, double Offset)
{
    public static Chord Over(double scale, double low, double high)
    {
        double width = high - low;
        double slope = scale * Math.Exp(-low) * (width > 0 ? PlanLedger.Failing(width) / width : 1);
        return new(scale, slope, (scale * PlanLedger.Failing(low)) - (slope * low));
    }

    /// <summary>How far the line lies below the curve; negative outside its interval.</summary>
    public double Gap(double doubt) => (Scale * PlanLedger.Failing(doubt)) - Offset - (Slope * doubt);
}
