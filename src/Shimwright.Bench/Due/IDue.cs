using Shimwright.Jobs.Due;
using Shimwright.Jobs.Past;

namespace Shimwright.Bench.Due;

/// <summary>When each engine is due, and the past that says so. Lists read what is kept; what is stale is worked out again here.</summary>
public interface IDue
{
    /// <summary>Engines in use whose name holds a text, those due first at the head; then those whose day cannot be said, then those not checked yet.</summary>
    /// <param name="search">The text; empty for all.</param>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The engines.</returns>
    Task<IReadOnlyList<DueEngine>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default);

    /// <summary>All engines in use that have a day on which they are due, the first first.</summary>
    /// <param name="most">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The engines.</returns>
    Task<IReadOnlyList<DueEngine>> DatedAsync(int most, CancellationToken cancel = default);

    /// <summary>An engine's forecast, worked out again first where it is stale.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The forecast; null where no job on it was closed yet.</returns>
    Task<KeptForecast?> FindAsync(Guid engineId, CancellationToken cancel = default);

    /// <summary>Works out again what is stale, for somebody who waits. Where it is kept fresh in the background, more than he would wait for is left to that.</summary>
    /// <param name="most">How many engines at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>How many engines are stale still.</returns>
    Task<int> RefreshStaleAsync(int most, CancellationToken cancel = default);

    /// <summary>Works out again all that is stale, for nobody who waits. From the first time on the bench counts on being kept fresh.</summary>
    /// <param name="pace">How hard it is worked at.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>When nothing is stale.</returns>
    Task KeepFreshAsync(IPace pace, CancellationToken cancel = default);

    /// <summary>The past of an engine and what is to be expected of it.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The outlook; null where nothing can be said.</returns>
    Task<StoredOutlook?> OutlookAsync(Guid engineId, CancellationToken cancel = default);

    /// <summary>The closed jobs of an engine as parts of its past, oldest first; discarded ones left out.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The jobs.</returns>
    Task<IReadOnlyList<PastJob>> PastAsync(Guid engineId, CancellationToken cancel = default);

    /// <summary>What a person has said of an engine's use.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Hours or km a week, or null.</returns>
    Task<double?> StatedUsageAsync(Guid engineId, CancellationToken cancel = default);

    /// <summary>Says how much an engine is used.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="perWeek">Hours or km a week, above 0; null where nobody can say.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether there is such an engine.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The usage is not above 0, or no number.</exception>
    Task<bool> StateUsageAsync(Guid engineId, double? perWeek, CancellationToken cancel = default);

    /// <summary>The records of closed jobs that were not discarded, those closed last first, for looking back on how they came out.</summary>
    /// <param name="most">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The records.</returns>
    Task<IReadOnlyList<ScoredRecord>> RecordsAsync(int most, CancellationToken cancel = default);
}
