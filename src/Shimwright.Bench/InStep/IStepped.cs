using Shimwright.Bench.Contents;

namespace Shimwright.Bench.InStep;

/// <summary>How far somebody has followed a bench.</summary>
/// <param name="Bench">Which bench; blank for one that was never met.</param>
/// <param name="Last">The last change that was heard of.</param>
/// <param name="Ledger">The last entry of the drawer that is known.</param>
/// <param name="Settings">The version of the settings that is known.</param>
public sealed record StepMark(string Bench, long Last, int Ledger, int Settings)
{
    /// <summary>Nothing is known yet.</summary>
    public static StepMark None { get; } = new("", 0, 0, 0);
}

/// <summary>What has changed since a mark, or a first part of it.</summary>
/// <param name="Mark">How far whoever takes it has followed.</param>
/// <param name="Rows">The rows as they are now: of a job all its facts, of a book all its entries, of pictures all but the picture.</param>
/// <param name="HasMore">Whether more has changed.</param>
public sealed record StepPart(StepMark Mark, BenchContents Rows, bool HasMore)
{
    /// <summary>How many entries of the drawer come with each engine, job, book or picture that a part may have.</summary>
    public const int EntriesEach = 40;
}

/// <summary>A deed that was heard of, and what became of it.</summary>
/// <param name="Deed">The deed.</param>
/// <param name="Pocket">The bench that sent it.</param>
/// <param name="Device">The device.</param>
/// <param name="SaidAt">When it was done by the clock of the device, UTC.</param>
/// <param name="HeardAt">When it came, UTC.</param>
/// <param name="Answer">What became of it.</param>
public sealed record HeardDeed(Guid Deed, Guid Pocket, string Device, DateTime SaidAt, DateTime HeardAt, DeedAnswer Answer);

/// <summary>A bench with which others can keep in step.</summary>
public interface IStepped
{
    /// <summary>Which bench it is: one that was put back from a copy is another one.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Its name.</returns>
    Task<string> NameAsync(CancellationToken cancel = default);

    /// <summary>What has changed since a mark.</summary>
    /// <param name="mark">The mark; of another bench, or of one that has gone on further, it counts for nothing.</param>
    /// <param name="most">How many engines, jobs, books and pictures at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The changes, in an order in which they can be laid over what was known.</returns>
    Task<StepPart> SinceAsync(StepMark mark, int most, CancellationToken cancel = default);

    /// <summary>What became of a deed that was heard of before.</summary>
    /// <param name="deed">The deed.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it; null where it was never heard of.</returns>
    Task<DeedAnswer?> AnsweredAsync(Guid deed, CancellationToken cancel = default);

    /// <summary>Writes down what became of a deed.</summary>
    /// <param name="heard">The deed.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>When it is kept.</returns>
    Task HearAsync(HeardDeed heard, CancellationToken cancel = default);

    /// <summary>Which actions came from one bench.</summary>
    /// <param name="pocket">The bench.</param>
    /// <param name="actions">The actions.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Those that did.</returns>
    Task<IReadOnlySet<Guid>> SentByAsync(Guid pocket, IReadOnlyCollection<Guid> actions, CancellationToken cancel = default);

    /// <summary>Works on the bench as if it were another time: what was done away from it is kept with the time at which it was done.</summary>
    /// <typeparam name="T">The answer.</typeparam>
    /// <param name="time">The time, UTC.</param>
    /// <param name="work">The work.</param>
    /// <returns>The answer.</returns>
    Task<T> AtAsync<T>(DateTime time, Func<IBench, Task<T>> work);

    /// <summary>Whether a fault means that the bench is away, full or damaged, and not that the program failed: what was sent is then sent again.</summary>
    /// <param name="fault">The fault.</param>
    /// <returns>Whether it is.</returns>
    bool IsAway(Exception fault);

    /// <summary>A picture with its content.</summary>
    /// <param name="id">The picture.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The picture, or null.</returns>
    Task<KeptPicture?> PictureAsync(Guid id, CancellationToken cancel = default);
}
