using Shimwright.Bench;
using Shimwright.Bench.Copies;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.InMemory;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Marks;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Photos;
using Shimwright.Bench.Settings;

namespace Shimwright.Pocket.Keeping;

/// <summary>The bench in a browser: in memory what is worked with, pictures where they are kept.</summary>
internal sealed class PocketBench : IBench
{
    private readonly MemoryBench _memory;

    public PocketBench(MemoryBench memory, TimeProvider time)
    {
        _memory = memory;
        Pictures = new PocketPictures(memory, time);
        Copies = new PocketCopies(memory.Copies);
    }

    /// <inheritdoc/>
    public IEngines Engines => _memory.Engines;

    /// <inheritdoc/>
    public IJobs Jobs => _memory.Jobs;

    /// <inheritdoc/>
    public IDue Due => _memory.Due;

    /// <inheritdoc/>
    public IDrawer Drawer => _memory.Drawer;

    /// <inheritdoc/>
    public IOrders Orders => _memory.Orders;

    /// <inheritdoc/>
    public IMarks Marks => _memory.Marks;

    /// <inheritdoc/>
    public IFeel Feel => _memory.Feel;

    /// <inheritdoc/>
    public IPictures Pictures { get; }

    /// <inheritdoc/>
    public ISettings Settings => _memory.Settings;

    /// <inheritdoc/>
    public ICopies Copies { get; }
}
