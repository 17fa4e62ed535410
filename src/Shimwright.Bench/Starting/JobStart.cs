using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Starting;

/// <summary>Starts a job on an engine of the bench with what the bench has set.</summary>
public static class JobStart
{
    /// <summary>What a job starts from.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="closed">Its closed jobs, oldest first.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <param name="check">Clock and temperature.</param>
    /// <param name="answer">Why the clock shows less than was known before, one of those of <see cref="ClockAnswered"/>; null where nobody has said.</param>
    /// <returns>The setup, or what is wrong.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static ParsedSetup Of(StoredEngine engine, IReadOnlyList<PastJob> closed, BenchSettings settings, CheckStated check, string? answer = null)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(check);
        var past = StartingPast.Of(engine.Card, closed);
        WrittenStart bench = settings.ForJob(AccessTimes.Of(engine.Card, engine.Details.AccessMinutes, settings));
        if (past.ProblemAt(check.Clock, ClockStyle.Of(engine.Card.Wear, settings)) is not { } early)
        {
            return JobSetup.Begin(engine.Card, check.Clock, check.TemperatureC, past.On(bench));
        }

        // How long the engine ran since is not known: the job begins without a past.
        return answer is ClockAnswered.Meter or ClockAnswered.Right
            ? JobSetup.Begin(engine.Card, check.Clock, check.TemperatureC, bench) with { Facts = [new ClockAnswered(answer, past.LastClock!.Value)] }
            : new(null, [], [early]);
    }

    /// <summary>Starts the job; the same action sent twice starts one.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="engine">The engine.</param>
    /// <param name="check">Clock and temperature.</param>
    /// <param name="action">The action.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The job, or what is wrong.</returns>
    /// <exception cref="ArgumentException">The action is empty, or the device has no name.</exception>
    public static Task<StartedJob> OnAsync(
        IBench bench, StoredEngine engine, CheckStated check, Guid action, string device, CancellationToken cancel = default) =>
        OnAsync(bench, engine, check, null, action, device, cancel);

    /// <summary>Starts the job; the same action sent twice starts one.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="engine">The engine.</param>
    /// <param name="check">Clock and temperature.</param>
    /// <param name="answer">Why the clock shows less than was known before, one of those of <see cref="ClockAnswered"/>; null where nobody has said.</param>
    /// <param name="action">The action.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The job, or what is wrong.</returns>
    /// <exception cref="ArgumentException">The action is empty, or the device has no name.</exception>
    public static async Task<StartedJob> OnAsync(
        IBench bench, StoredEngine engine, CheckStated check, string? answer, Guid action, string device, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        ArgumentNullException.ThrowIfNull(engine);
        if (RetiredRules.ProblemOf(engine) is { } retired)
        {
            return new(null, [retired]);
        }

        BenchSettings settings = (await bench.Settings.CurrentAsync(cancel)).Settings;
        ParsedSetup start = Of(engine, await bench.Due.PastAsync(engine.Id, cancel), settings, check, answer);
        if (start.Setup is not { } setup)
        {
            return new(null, start.Problems);
        }

        Guid id = await bench.Jobs.StartAsync(engine.Id, setup, start.Facts, JobPast.OfBench, action, device, cancel);
        return await bench.Jobs.FindAsync(id, cancel) is { } job && (job.Summary.EngineId != engine.Id || !job.Sheet.Setup.Start.Clock.Equals(setup.Start.Clock))
            ? StartedJob.Reused
            : new(id, []);
    }
}
