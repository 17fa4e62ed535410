using Shimwright.Domain.Readings;

namespace Shimwright.Jobs.Written;

/// <summary>The feel of the person, mm and a share.</summary>
public sealed record FeelSettings(double Firm, double Light, double Loose, double Spread, double Slip)
{
    /// <summary>The usual feel.</summary>
    public static FeelSettings Usual { get; } = new(
        FeelProfile.Default.Firm, FeelProfile.Default.Light, FeelProfile.Default.Loose, FeelProfile.Default.StandardDeviation, FeelProfile.Default.Slip);
}
