using Shimwright.Domain.Depth;
using Shimwright.Domain.Uncertainty;

namespace Shimwright.Study;

/// <summary>Where a strategy reads depths.</summary>
internal enum DepthsTaken
{
    Never,
    WhereNoBladeEnters,
    UnderLiftedCamshafts,
}

/// <summary>How good a depth reading is: the budget of the guide's example, split into what a camshaft's valves share and what they do not.</summary>
internal static class Depths
{
    /// <summary>Minutes a valve, besides lifting its camshaft.</summary>
    public const double Minutes = 4;

    private static readonly ValveDepth Bucket = new(new InputQuantity("bucket", 14, 0.005));

    private static readonly UncertaintyBudget Budget = DepthReading.Under(Bucket, new Camshaft(
        new("saddle", 11.5, 0.004), new("journal", 23, 0.002), new("base circle", 28, 0.003), new("play", 0.025, 0.007)));

    public static double Combined => Budget.Combined;

    public static double Own => Bucket.Bucket.Uncertainty;

    public static double Shared => Math.Sqrt((Combined * Combined) - (Own * Own));
}
