using Shimwright.Bench.Contents;
using Shimwright.Bench.Copies;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.InStep;
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
public sealed class MemoryBench : IBench, IStepped
{
    private readonly MemoryState _state;
    private readonly MemorySteps _steps;

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
        _steps = new(_state);
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

    /// <summary>By how much the version of what is saved goes up; 1 as a rule.</summary>
    public int Leap
    {
        get => _state.Leap;
        set => _state.Leap = value;
    }

    /// <inheritdoc/>
    public Task<string> NameAsync(CancellationToken cancel = default) => Task.FromResult(_steps.Name);

    /// <inheritdoc/>
    public Task<StepPart> SinceAsync(StepMark mark, int most, CancellationToken cancel = default) => _state.DoAsync(() => _steps.Since(mark, most), cancel);

    /// <inheritdoc/>
    public Task<DeedAnswer?> AnsweredAsync(Guid deed, CancellationToken cancel = default) => _state.DoAsync(() => _steps.Answered(deed), cancel);

    /// <inheritdoc/>
    public Task HearAsync(HeardDeed heard, CancellationToken cancel = default) => _state.DoAsync(() => _steps.Hear(heard), cancel);

    /// <inheritdoc/>
    public Task<IReadOnlySet<Guid>> SentByAsync(Guid pocket, IReadOnlyCollection<Guid> actions, CancellationToken cancel = default) =>
        _state.DoAsync(() => _steps.SentBy(pocket, actions), cancel);

    /// <inheritdoc/>
    public Task<T> AtAsync<T>(DateTime time, Func<IBench, Task<T>> work) => _state.AtAsync(time, () => work(this));

    /// <inheritdoc/>
    public bool IsAway(Exception fault) => fault is IOException;

    /// <inheritdoc/>
    public Task<KeptPicture?> PictureAsync(Guid id, CancellationToken cancel = default) => _state.DoAsync(() => _state.Pictures.GetValueOrDefault(id), cancel);

    /// <summary>All that the bench holds now.</summary>
    /// <returns>The contents; a bench filled with them answers alike.</returns>
    public BenchContents Contents() => _state.Do(_state.Contents);

    /// <summary>Puts rows in the place of those that the bench holds under their keys. Nobody is told of it to keep it.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="gone">The rows that are taken away.</param>
    /// <exception cref="ArgumentException">They do not belong to what is here.</exception>
    public void Replace(BenchContents rows, RowKeys gone)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(gone);
        _state.Do(() =>
        {
            _state.Patch(rows, gone);
            return true;
        });
    }

    /// <summary>The facts of a job as they are kept.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The facts; none where there is no such job.</returns>
    public IReadOnlyList<KeptFact> FactsOf(Guid job) => _state.Do<IReadOnlyList<KeptFact>>(() => _state.Jobs.TryGetValue(job, out MemoryJob? known) ? [.. known.Facts] : []);

    /// <summary>The number of the drawer's last entry.</summary>
    public int LastEntry => _state.Do(() => _state.Ledger.Last);

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
