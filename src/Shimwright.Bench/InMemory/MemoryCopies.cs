using Shimwright.Bench.Contents;
using Shimwright.Bench.Copies;

namespace Shimwright.Bench.InMemory;

/// <summary>A bench in memory keeps no copies of itself; it can be carried away.</summary>
internal sealed class MemoryCopies(MemoryState state) : ICopies
{
    private const string None = "this bench lives in no file; export it";

    /// <inheritdoc/>
    public Task<BenchContents> ContentsAsync(CancellationToken cancel = default) => state.DoAsync(state.Contents, cancel);

    /// <inheritdoc/>
    public Task<bool> TakeInAsync(BenchContents contents, IProgress<int>? progress = null, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            if (!state.Contents().IsEmpty)
            {
                return false;
            }

            state.Change(contents);
            return true;
        },
        cancel);

    /// <inheritdoc/>
    public Task<CopiesState> StateAsync(CancellationToken cancel = default) => Task.FromResult(new CopiesState(null, [], null));

    /// <inheritdoc/>
    public Task<MadeCopy> MakeAsync(CancellationToken cancel = default) => Task.FromResult(new MadeCopy(null, None));
}
