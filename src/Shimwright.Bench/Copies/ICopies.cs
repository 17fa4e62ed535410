using Shimwright.Bench.Contents;

namespace Shimwright.Bench.Copies;

/// <summary>Copies of the whole bench: those that are kept, and what a bench is carried away in.</summary>
public interface ICopies
{
    /// <summary>All that the bench holds at one moment.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The rows; a bench that takes them in answers alike.</returns>
    Task<BenchContents> ContentsAsync(CancellationToken cancel = default);

    /// <summary>Fills the bench, where nothing is in it yet.</summary>
    /// <param name="contents">The rows; they belong together.</param>
    /// <param name="progress">Told how many rows are written, or null.</param>
    /// <param name="cancel">Stops it; then nothing is kept.</param>
    /// <returns>Whether the bench was empty; where it was not, nothing has changed.</returns>
    Task<bool> TakeInAsync(BenchContents contents, IProgress<int>? progress = null, CancellationToken cancel = default);

    /// <summary>The copies that are kept, the newest first.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What is kept, where, and what went wrong last.</returns>
    Task<CopiesState> StateAsync(CancellationToken cancel = default);

    /// <summary>Makes a copy beside the others now, and takes away those that are too many.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The copy, or why there is none.</returns>
    Task<MadeCopy> MakeAsync(CancellationToken cancel = default);
}

/// <summary>A copy of the bench in a file.</summary>
/// <param name="Name">The file's name.</param>
/// <param name="At">When it was made, UTC.</param>
/// <param name="Bytes">Its size.</param>
public sealed record KeptCopy(string Name, DateTime At, long Bytes);

/// <summary>The copies that are kept.</summary>
/// <param name="Folder">Where; null where the bench keeps none, since it lives in no file.</param>
/// <param name="Copies">The copies, the newest first.</param>
/// <param name="Failure">Why the last one could not be made, or null.</param>
public sealed record CopiesState(string? Folder, IReadOnlyList<KeptCopy> Copies, string? Failure);

/// <summary>What became of a copy.</summary>
/// <param name="Copy">The copy, or null.</param>
/// <param name="Failure">Why there is none, or null.</param>
public sealed record MadeCopy(KeptCopy? Copy, string? Failure);
