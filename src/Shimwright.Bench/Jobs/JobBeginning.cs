using Shimwright.Bench.Texts;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Jobs;

/// <summary>A job on its first moment.</summary>
public static class JobBeginning
{
    /// <summary>Lays the facts that are known already over what a job starts from.</summary>
    /// <param name="setup">What it starts from.</param>
    /// <param name="facts">The facts.</param>
    /// <param name="action">The action.</param>
    /// <param name="device">The device.</param>
    /// <param name="now">The time, UTC.</param>
    /// <returns>The sheet.</returns>
    /// <exception cref="ArgumentException">The action is empty, the device has no name, or the facts do not belong to the setup.</exception>
    public static JobSheet Of(JobSetup setup, IReadOnlyList<JobFact> facts, Guid action, string device, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(facts);
        if (action == Guid.Empty || !PlainText.CanNameADevice(device))
        {
            throw new ArgumentException("A job is started by an action and a device that has a name.", nameof(action));
        }

        var sheet = JobSheet.Of(setup, [.. facts.Select((fact, i) => new JobEntry(i + 1, action, device, now, fact))]);
        return JobSheetFile.Read(sheet, JobPurpose.Draft).Problems is { Count: > 0 } problems
            ? throw new ArgumentException($"The facts do not belong to the setup: {string.Join("; ", problems)}", nameof(facts))
            : sheet;
    }

    /// <summary>What is thrown where a job is to be started on an engine that is not there.</summary>
    /// <param name="engine">The engine.</param>
    /// <returns>The exception.</returns>
    public static ArgumentException NoEngine(Guid engine) => new($"There is no engine {engine}.", nameof(engine));
}
