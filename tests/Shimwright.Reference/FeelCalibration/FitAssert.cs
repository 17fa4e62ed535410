using Shimwright.Domain.FeelCalibration;
using Xunit;

namespace Shimwright.Reference.FeelCalibration;

/// <summary>A fit against what a source prints of it.</summary>
internal static class FitAssert
{
    /// <summary>Half a unit of the last digit printed, and a little for the source's own stopping rule.</summary>
    public static void Values(double[] published, IReadOnlyList<FittedParameter> fitted, double tolerance) =>
        Each(published, [.. fitted.Select(f => f.Value)], tolerance);

    public static void Errors(double[] published, IReadOnlyList<FittedParameter> fitted, double tolerance) =>
        Each(published, [.. fitted.Select(f => f.StandardError)], tolerance);

    private static void Each(double[] published, double[] found, double tolerance)
    {
        Assert.Equal(published.Length, found.Length);
        Assert.All(published.Zip(found), p => Assert.Equal(p.First, p.Second, tolerance));
    }
}
