using Shimwright.Domain.Readings;

namespace Shimwright.Jobs.Written;

/// <summary>The feel of the person, mm and a share.</summary>
/// <param name="Firm">Play at which a blade just enters, mm.</param>
/// <param name="Light">Play at which heavy drag turns light, mm.</param>
/// <param name="Loose">Play at which drag ends, mm.</param>
/// <param name="Spread">Standard deviation of the feel, mm.</param>
/// <param name="Slip">Share of trials whose feel is a slip.</param>
/// <param name="Doubt">Standard deviation of the offset that the three plays share in one check, mm.</param>
public sealed record FeelSettings(
    double Firm, double Light, double Loose, double Spread, double Slip, double Doubt = FeelProfile.UsualDoubt)
{
    /// <summary>The usual feel.</summary>
    public static FeelSettings Usual { get; } = new(
        FeelProfile.Default.Firm, FeelProfile.Default.Light, FeelProfile.Default.Loose, FeelProfile.Default.StandardDeviation, FeelProfile.Default.Slip,
        FeelProfile.Default.Doubt);
}
