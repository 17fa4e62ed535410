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

namespace Shimwright.Bench.Following;

/// <summary>A bench on which everything that is done is remembered for the bench that it follows.</summary>
public sealed class FollowedBench : IBench
{
    /// <summary>A bench that follows another.</summary>
    /// <param name="follower">What it holds, and what it follows.</param>
    /// <param name="pictures">Where its pictures are kept.</param>
    /// <param name="copies">How it is carried out and in.</param>
    public FollowedBench(Follower follower, IPictures pictures, ICopies copies)
    {
        ArgumentNullException.ThrowIfNull(follower);
        Engines = new FollowedEngines(follower, follower.Memory);
        Jobs = new FollowedJobs(follower, follower.Memory.Jobs);
        Due = new FollowedDue(follower, follower.Memory.Due);
        Drawer = new FollowedDrawer(follower, follower.Memory.Drawer);
        Orders = follower.Memory.Orders;
        Marks = follower.Memory.Marks;
        Feel = new FollowedFeel(follower, follower.Memory.Feel);
        Pictures = new FollowedPictures(follower, pictures);
        Settings = new FollowedSettings(follower, follower.Memory.Settings);
        Copies = new FollowedCopies(follower, copies);
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

    /// <summary>While it follows another bench it is not filled from an archive: nobody could say what is new in it.</summary>
    private sealed class FollowedCopies(Follower follower, ICopies inner) : ICopies
    {
        public Task<BenchContents> ContentsAsync(CancellationToken cancel = default) => inner.ContentsAsync(cancel);

        public Task<bool> TakeInAsync(BenchContents contents, IProgress<int>? progress = null, CancellationToken cancel = default) =>
            follower.Followed is null ? inner.TakeInAsync(contents, progress, cancel) : Task.FromResult(false);

        public Task<CopiesState> StateAsync(CancellationToken cancel = default) => inner.StateAsync(cancel);

        public Task<MadeCopy> MakeAsync(CancellationToken cancel = default) => inner.MakeAsync(cancel);
    }
}
