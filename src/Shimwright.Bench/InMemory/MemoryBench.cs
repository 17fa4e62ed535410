using Shimwright.Bench.Contents;
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

namespace Shimwright.Bench.InMemory;

/// <summary>
/// A bench that holds all it knows in memory. One thing is done at a time, whatever is asked at once. It lasts as long as the program
/// unless somebody keeps what it says has changed.
/// </summary>
public sealed class MemoryBench : IBench
{
    private readonly MemoryState _state;

    /// <summary>A bench, empty or filled.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="contents">What it holds from the start, or null for nothing.</param>
    /// <param name="keep">
    /// Keeps what has changed, or null. It is called before the change is seen by anybody, change after change in their order; where
    /// it throws, nothing has changed. It must ask the bench for its <see cref="Contents"/> at most, which are those before the change.
    /// </param>
    /// <param name="kept">
    /// Waited for before anything is answered, or null: done when all that was handed to <paramref name="keep"/> lies where it lasts.
    /// Where it fails the bench holds what is not kept, and is not to be asked again.
    /// </param>
    /// <exception cref="ArgumentException">The contents do not belong together.</exception>
    public MemoryBench(TimeProvider time, BenchContents? contents = null, Action<BenchContents>? keep = null, Func<Task>? kept = null)
    {
        ArgumentNullException.ThrowIfNull(time);
        _state = new(time, contents ?? new(), keep, kept);
        Engines = new MemoryEngines(_state);
        Jobs = new MemoryJobs(_state);
        Settings = new MemorySettings(_state);
        Drawer = new MemoryDrawer(_state);
        Orders = new MemoryOrders(_state);
        Marks = new MemoryMarks(_state);
        Feel = new MemoryFeel(_state);
        Pictures = new MemoryPictures(_state);
        Due = new MemoryDue(_state);
        Copies = new MemoryCopies(_state);
    }

    /// <inheritdoc/>
    public IEngines Engines { get; }

    /// <inheritdoc/>
    public IJobs Jobs { get; }

    /// <inheritdoc/>
    public IDue Due { get; }

    /// <inheritdoc/>
    public IDrawer Drawer { get; }

    /// <inheritdoc/>
    public IOrders Orders { get; }

    /// <inheritdoc/>
    public IMarks Marks { get; }

    /// <inheritdoc/>
    public IFeel Feel { get; }

    /// <inheritdoc/>
    public IPictures Pictures { get; }

    /// <inheritdoc/>
    public ISettings Settings { get; }

    /// <inheritdoc/>
    public ICopies Copies { get; }

    /// <summary>All that the bench holds now.</summary>
    /// <returns>The contents; a bench filled with them answers alike.</returns>
    public BenchContents Contents() => _state.Do(_state.Contents);

    /// <summary>Lays over what the bench holds what another program has kept in the same place meanwhile.</summary>
    /// <param name="rows">The rows that are new.</param>
    /// <exception cref="ArgumentException">They do not belong to what is here.</exception>
    public void Follow(BenchContents rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        _state.Do(() =>
        {
            _state.Lay(rows);
            return true;
        });
    }
}
