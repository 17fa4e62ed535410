using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Tests.Wear;

/// <summary>Small histories of one valve with everything filled in that a test does not care about.</summary>
internal static class Kept
{
    public const double Interval = 30;

    public static UsualWear Wear { get; } = new(Interval, 0.02, 0.02);

    public static Engine Single { get; } = Made.Engine(Made.Valve());

    public static WearCheck Check(double clock, ValveReadings readings, params Adjustment[] changes) =>
        new(clock, new EngineCheck(Single, [readings]), changes: changes);

    public static Adjustment Shim(double from, double to) => Adjustment.Fitted(0, Made.Measured(from), Made.Measured(to));

    /// <summary>Equal to an absolute and relative part.</summary>
    public static void AssertEqual(WearState expected, WearState found, double tolerance)
    {
        Xunit.Assert.Equal(expected.Clearance, found.Clearance, tolerance);
        Xunit.Assert.Equal(expected.Rate * Interval, found.Rate * Interval, tolerance);
        Xunit.Assert.Equal(expected.ClearanceVariance, found.ClearanceVariance, tolerance);
        Xunit.Assert.Equal(expected.Covariance * Interval, found.Covariance * Interval, tolerance);
        Xunit.Assert.Equal(expected.RateVariance * Interval * Interval, found.RateVariance * Interval * Interval, tolerance);
    }
}
