using Shimwright.Bench;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;

namespace Shimwright.Web.Engines;

/// <summary>Starts a job on an engine of the bench with what the bench has set.</summary>
internal static class JobStart
{
    /// <summary>Starts the job; the same action sent twice starts one.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="engine">The engine.</param>
    /// <param name="check">Clock and temperature.</param>
    /// <param name="action">The action.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The job, or what is wrong.</returns>
    public static async Task<(Guid? Job, IReadOnlyList<JobProblem> Problems)> OnAsync(
        IBench bench, StoredEngine engine, CheckStated check, Guid action, string device, CancellationToken cancel = default)
    {
        BenchSettings settings = (await bench.Settings.CurrentAsync(cancel)).Settings;
        var past = EnginePast.Of(engine.Card, await bench.Due.PastAsync(engine.Id, cancel));
        if (past.ProblemAt(check.Clock, ClockStyle.Of(engine.Card.Wear, settings)) is { } early)
        {
            return (null, [early]);
        }

        ParsedSetup reading = JobSetup.Begin(
            engine.Card, check.Clock, check.TemperatureC, past.On(settings.ForJob(AccessTimes.Of(engine.Card, engine.Details.AccessMinutes, settings))));
        return reading.Setup is { } setup
            ? (await bench.Jobs.StartAsync(engine.Id, setup, [], JobPast.OfBench, action, device, cancel), [])
            : (null, reading.Problems);
    }
}
