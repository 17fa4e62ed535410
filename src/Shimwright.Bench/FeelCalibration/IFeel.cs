using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.FeelCalibration;

/// <summary>A person's book of trials as it is kept.</summary>
/// <param name="Id">The person.</param>
/// <param name="Book">The book.</param>
public sealed record StoredFeel(Guid Id, FeelBook Book);

/// <summary>
/// The books of trials of those who work at the bench; entries are added, never changed and never taken away. They stand apart from
/// the settings, so that a trial neither makes a settings page that is open elsewhere out of date nor copies every other trial.
/// </summary>
public interface IFeel
{
    /// <summary>Everybody's books, by name.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The books.</returns>
    Task<IReadOnlyList<StoredFeel>> ListAsync(CancellationToken cancel = default);

    /// <summary>One person's book.</summary>
    /// <param name="id">The person.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The book, or null where there is no such person.</returns>
    Task<StoredFeel?> FindAsync(Guid id, CancellationToken cancel = default);

    /// <summary>The number that an action's entry has in a book.</summary>
    /// <param name="id">The person.</param>
    /// <param name="action">The action.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The number; null where the book has no such entry.</returns>
    Task<int?> NumberOfAsync(Guid id, Guid action, CancellationToken cancel = default);

    /// <summary>The action that wrote an entry of a book.</summary>
    /// <param name="id">The person.</param>
    /// <param name="number">The entry's number.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The action; null where the book has no such entry.</returns>
    Task<Guid?> ActionOfAsync(Guid id, int number, CancellationToken cancel = default);

    /// <summary>Writes an entry into a book; the first one, with a name, begins it. The same action sent twice counts once.</summary>
    /// <param name="id">The person.</param>
    /// <param name="action">The action.</param>
    /// <param name="device">The device.</param>
    /// <param name="entry">The entry.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What is wrong with it; nothing where it is kept.</returns>
    /// <exception cref="ArgumentException">The device has no name.</exception>
    Task<IReadOnlyList<JobProblem>> AddAsync(Guid id, Guid action, string device, FeelEntry entry, CancellationToken cancel = default);
}
