using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Setups;

namespace Shimwright.Bench.Starting;

/// <summary>The second round of a job. One round follows a job: with two, what was felt again would count twice in the engine's past.</summary>
public static class NextRound
{
    /// <summary>Starts the round, where there is none yet.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="job">The job that was not right yet.</param>
    /// <param name="action">The action; the same sent twice starts one round.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The round, the one that was started before where there is one; or what is wrong.</returns>
    /// <exception cref="ArgumentException">The action is empty, or the device has no name.</exception>
    public static async Task<StartedJob> AfterAsync(IBench bench, StoredJob job, Guid action, string device, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        ArgumentNullException.ThrowIfNull(job);
        if (await bench.Jobs.SecondRoundOfAsync(job.Summary.Id, cancel) is { } round)
        {
            return new(round.Id, []);
        }

        ParsedSetup start = SecondRound.Of(job.Sheet);
        return start.Setup is { } setup
            ? new(await bench.Jobs.StartAsync(job.Summary.EngineId, setup, start.Facts, JobPast.SecondRoundOf(job.Summary.Id), action, device, cancel), [])
            : new(null, start.Problems);
    }
}
