using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Engines;

/// <summary>Engines and their cards.</summary>
public interface IEngines
{
    /// <summary>Adds an engine with a card of its own.</summary>
    /// <param name="id">The engine's id, made by the caller: the same sent twice adds one.</param>
    /// <param name="name">Its name.</param>
    /// <param name="card">The card.</param>
    /// <param name="details">What a job file has no place for.</param>
    /// <param name="notes">Notes on this engine.</param>
    /// <param name="papers">Owner and frame number; null for neither.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>When it is kept.</returns>
    /// <exception cref="ArgumentException">A card cannot have that name, or the papers are too long.</exception>
    Task AddAsync(Guid id, string name, EngineCard card, CardDetails details, string notes = "", EnginePapers? papers = null, CancellationToken cancel = default);

    /// <summary>Adds an engine that shares the card of another.</summary>
    /// <param name="id">The engine's id, made by the caller: the same sent twice adds one.</param>
    /// <param name="name">Its name.</param>
    /// <param name="cardId">The card.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>When it is kept.</returns>
    /// <exception cref="ArgumentException">There is no such card, or a card cannot have that name.</exception>
    Task AddSharingAsync(Guid id, string name, Guid cardId, CancellationToken cancel = default);

    /// <summary>Saves an engine and its card.</summary>
    /// <param name="seen">The engine as the person had seen it, with its versions.</param>
    /// <param name="name">The name.</param>
    /// <param name="card">The card.</param>
    /// <param name="details">What a job file has no place for.</param>
    /// <param name="notes">Notes on this engine.</param>
    /// <param name="papers">Owner and frame number; null where they stay as they are.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    /// <exception cref="ArgumentException">A card cannot have that name, or the papers are too long.</exception>
    Task<SaveOutcome> SaveAsync(
        (Guid Id, int Version, int CardVersion) seen, string name, EngineCard card, CardDetails details, string notes,
        EnginePapers? papers = null, CancellationToken cancel = default);

    /// <summary>Finds an engine.</summary>
    /// <param name="id">The engine.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The engine, or null.</returns>
    Task<StoredEngine?> FindAsync(Guid id, CancellationToken cancel = default);

    /// <summary>
    /// Removes an engine for good, with its jobs, their facts and records, and its card where no other engine has it. Nothing else that is kept
    /// is ever taken away. What its jobs did to the drawer stays in the ledger, without the job.
    /// </summary>
    /// <param name="id">The engine.</param>
    /// <param name="typed">Its name, typed by the person who wants it.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What kept it from being removed; none where it is.</returns>
    Task<IReadOnlyList<JobProblem>> RemoveAsync(Guid id, string typed, CancellationToken cancel = default);

    /// <summary>Retires an engine, or puts it back into use. Its jobs and records stay; lists of engines in use leave it out.</summary>
    /// <param name="id">The engine.</param>
    /// <param name="isRetired">Whether it is retired from now on; the same said twice changes nothing.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether there is such an engine.</returns>
    Task<bool> RetireAsync(Guid id, bool isRetired, CancellationToken cancel = default);

    /// <summary>Retired engines whose name holds a text, by name.</summary>
    /// <param name="search">The text; empty for all.</param>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The engines.</returns>
    Task<IReadOnlyList<EngineSummary>> RetiredAsync(string? search, int skip, int take, CancellationToken cancel = default);

    /// <summary>How many retired engines have a name that holds a text.</summary>
    /// <param name="search">The text; empty for all.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The number.</returns>
    Task<int> CountRetiredAsync(string? search, CancellationToken cancel = default);

    /// <summary>Engines in use whose name holds a text, by name.</summary>
    /// <param name="search">The text; empty for all.</param>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The engines.</returns>
    Task<IReadOnlyList<EngineSummary>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default);

    /// <summary>How many engines in use have a name that holds a text.</summary>
    /// <param name="search">The text; empty for all.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The number.</returns>
    Task<int> CountAsync(string? search, CancellationToken cancel = default);
}
