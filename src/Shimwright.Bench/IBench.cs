using Shimwright.Bench.Copies;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Marks;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Photos;
using Shimwright.Bench.Settings;

namespace Shimwright.Bench;

/// <summary>A bench: all that is kept of a shop's engines and the work on them, wherever it is kept.</summary>
public interface IBench
{
    /// <summary>Engines and their cards.</summary>
    IEngines Engines { get; }

    /// <summary>Jobs and their facts.</summary>
    IJobs Jobs { get; }

    /// <summary>When each engine is due, and its past.</summary>
    IDue Due { get; }

    /// <summary>The shop's drawer of shims.</summary>
    IDrawer Drawer { get; }

    /// <summary>What shims the engines that come due will want, and what to order.</summary>
    IOrders Orders { get; }

    /// <summary>Marks of shims against their measured sizes.</summary>
    IMarks Marks { get; }

    /// <summary>The books of trials of those who work at the bench.</summary>
    IFeel Feel { get; }

    /// <summary>Photos of jobs, and the workshop's logo.</summary>
    IPictures Pictures { get; }

    /// <summary>The bench's settings.</summary>
    ISettings Settings { get; }

    /// <summary>Copies of the whole bench.</summary>
    ICopies Copies { get; }
}
