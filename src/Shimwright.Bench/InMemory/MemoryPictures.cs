using Shimwright.Bench.Contents;
using Shimwright.Bench.Photos;

namespace Shimwright.Bench.InMemory;

/// <summary>The pictures of a bench in memory.</summary>
internal sealed class MemoryPictures(MemoryState state) : IPictures
{
    /// <inheritdoc/>
    public Task AddAsync(Guid id, Guid? job, Picture picture, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            PictureRules.Check(id, picture);
            if (job is { } of && !state.Jobs.ContainsKey(of))
            {
                throw PictureRules.NoJob(of);
            }

            if (!state.Pictures.ContainsKey(id))
            {
                state.Change(new() { Pictures = [new(id, job, state.Now, picture.ContentType, picture.Width, picture.Height, picture.Content, picture.Thumb)] });
            }

            return true;
        },
        cancel);

    /// <inheritdoc/>
    public Task<Picture?> FindAsync(Guid id, Guid? job, CancellationToken cancel = default) => state.DoAsync(
        () => state.Pictures.TryGetValue(id, out KeptPicture? row) && row.Job == job ? new Picture(row.ContentType, row.Width, row.Height, row.Content, row.Thumb) : null,
        cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<PictureSize>> OfJobAsync(Guid job, CancellationToken cancel = default) => state.DoAsync(
        IReadOnlyList<PictureSize> () => [.. state.Pictures.Values.Where(p => p.Job == job).OrderBy(p => p.At).ThenBy(p => p.Id).Select(p => new PictureSize(p.Id, p.Width, p.Height))],
        cancel);
}
