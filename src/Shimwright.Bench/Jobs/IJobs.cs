using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;

namespace Shimwright.Bench.Jobs;

/// <summary>Jobs, each with a sheet of facts that only grows.</summary>
public interface IJobs
{
    /// <summary>Starts a job.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="setup">What it starts from.</param>
    /// <param name="facts">Facts that are known already.</param>
    /// <param name="action">The action; the same sent twice starts one job.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The job.</returns>
    /// <exception cref="ArgumentException">The action is empty, the device has no name, the facts do not belong to the setup, or there is no such engine.</exception>
    Task<Guid> StartAsync(
        Guid engineId, JobSetup setup, IReadOnlyList<JobFact> facts, Guid action, string device, CancellationToken cancel = default);

    /// <summary>Starts a job whose setup has a past that the bench knows of.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="setup">What it starts from.</param>
    /// <param name="facts">Facts that are known already.</param>
    /// <param name="past">Where the past in the setup comes from.</param>
    /// <param name="action">The action; the same sent twice starts one job.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The job.</returns>
    /// <exception cref="ArgumentException">The action is empty, the device has no name, the facts do not belong to the setup, or there is no such engine.</exception>
    Task<Guid> StartAsync(
        Guid engineId, JobSetup setup, IReadOnlyList<JobFact> facts, JobPast past, Guid action, string device, CancellationToken cancel = default);

    /// <summary>Finds a job.</summary>
    /// <param name="id">The job.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The job, or null.</returns>
    Task<StoredJob?> FindAsync(Guid id, CancellationToken cancel = default);

    /// <summary>Adds facts to a job, all or none.</summary>
    /// <param name="id">The job.</param>
    /// <param name="addition">What is added.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    /// <exception cref="ArgumentException">The addition has no action of its own.</exception>
    Task<AddResult> AddAsync(Guid id, Addition addition, CancellationToken cancel = default);

    /// <summary>Open jobs of engines in use, those changed last first; discarded ones left out.</summary>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The jobs.</returns>
    Task<IReadOnlyList<JobSummary>> OpenAsync(int skip, int take, CancellationToken cancel = default);

    /// <summary>Closed jobs, those closed last first; discarded ones left out.</summary>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The jobs.</returns>
    Task<IReadOnlyList<JobSummary>> ClosedAsync(int skip, int take, CancellationToken cancel = default);

    /// <summary>The jobs of an engine, the newest first, discarded ones among them.</summary>
    /// <param name="engineId">The engine.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The jobs.</returns>
    Task<IReadOnlyList<JobSummary>> OfEngineAsync(Guid engineId, CancellationToken cancel = default);

    /// <summary>The second round of a job, discarded or not, the one started last where there are several; null where there is none.</summary>
    /// <param name="job">The job that was not right yet.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The round.</returns>
    Task<JobSummary?> SecondRoundOfAsync(Guid job, CancellationToken cancel = default);

    /// <summary>How many jobs of engines in use are open and not discarded.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The number.</returns>
    Task<int> CountOpenAsync(CancellationToken cancel = default);
}
