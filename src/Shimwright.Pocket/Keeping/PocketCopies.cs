using Shimwright.Bench.Contents;
using Shimwright.Bench.Copies;

namespace Shimwright.Pocket.Keeping;

/// <summary>The copies of the bench in a browser: it keeps none of its own, and is carried out and in with its pictures.</summary>
internal sealed class PocketCopies(ICopies memory) : ICopies
{
    /// <inheritdoc/>
    public async Task<BenchContents> ContentsAsync(CancellationToken cancel = default) =>
        await memory.ContentsAsync(cancel) with { Pictures = await PocketPictures.AllAsync() };

    /// <inheritdoc/>
    public async Task<bool> TakeInAsync(BenchContents contents, IProgress<int>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(contents);
        if (!(await memory.ContentsAsync(cancel)).IsEmpty)
        {
            return false;
        }

        // Pictures first: where the browser has no room for all of them nothing else of the archive is there, and it can be tried again.
        foreach (KeptPicture picture in contents.Pictures)
        {
            await PocketPictures.PutAsync(picture);
        }

        return await memory.TakeInAsync(contents with { Pictures = [] }, progress, cancel);
    }

    /// <inheritdoc/>
    public Task<CopiesState> StateAsync(CancellationToken cancel = default) => memory.StateAsync(cancel);

    /// <inheritdoc/>
    public Task<MadeCopy> MakeAsync(CancellationToken cancel = default) => memory.MakeAsync(cancel);
}
