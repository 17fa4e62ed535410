using Shimwright.Bench.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Starting;

/// <summary>Taking a job file in: an engine, where there is none of that name, and a job on it.</summary>
public static class JobImport
{
    /// <summary>Takes a file in.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="file">The file.</param>
    /// <param name="engineId">The engine that it is meant for; null for the one of that name, or a new one.</param>
    /// <param name="alwaysNew">Whether an engine of that name is another one.</param>
    /// <param name="sent">The action, and the device that sent it.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The job, or what is wrong.</returns>
    /// <exception cref="ArgumentException">The action is empty, or the device has no name.</exception>
    public static async Task<StartedJob> RunAsync(
        IBench bench, byte[] file, Guid? engineId, bool alwaysNew, (Guid Action, string Device) sent, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(bench);
        ParsedSetup reading = JobSetup.FromFile(file);
        if (reading.Setup is not { } setup)
        {
            return new(null, reading.Problems);
        }

        string name = setup.Card.Engine.Name;
        Guid? wanted = engineId ?? (alwaysNew ? null : await NamedAsync(bench, name, cancel));
        if (wanted is { } known)
        {
            if (await bench.Engines.FindAsync(known, cancel) is not { } engine)
            {
                return new(null, [new("engine", "there is no such engine", "choose another, or take the file in as a new engine")]);
            }

            if (RetiredRules.ProblemOf(engine) is { } retired)
            {
                return new(null, [retired]);
            }

            if (Differences(setup, engine) is { Count: > 0 } differences)
            {
                return new(null, differences);
            }
        }

        // The same file sent twice with the same action makes one engine and one job.
        Guid id = wanted ?? sent.Action;
        if (wanted is null)
        {
            await bench.Engines.AddAsync(id, name, setup.Card, new CardDetails { AccessMinutes = JobTerms.Costs(Empty(setup)).Access }, cancel: cancel);
        }

        Guid started = await bench.Jobs.StartAsync(id, setup, reading.Facts, sent.Action, sent.Device, cancel);
        return await bench.Jobs.FindAsync(started, cancel) is { } job && job.Sheet.Setup.Json != setup.Json ? StartedJob.Reused : new(started, []);
    }

    private static JobSheet Empty(JobSetup setup) => JobSheet.Of(setup, []);

    private static async Task<Guid?> NamedAsync(IBench bench, string name, CancellationToken cancel) =>
        (await bench.Engines.ListAsync(name, 0, 100, cancel)).Concat(await bench.Engines.RetiredAsync(name, 0, 100, cancel)).FirstOrDefault(e => string.Equals(e.Name.Trim(), name.Trim(), StringComparison.OrdinalIgnoreCase))?.Id;

    /// <summary>A file for another engine is not laid upon this one.</summary>
    private static List<JobProblem> Differences(JobSetup setup, StoredEngine engine)
    {
        string[] file = [.. setup.Card.Engine.Valves.Select(v => v.Id)];
        string[] card = [.. engine.Card.Engine.Valves.Select(v => v.Id)];
        List<JobProblem> problems = [];
        if (!file.ToHashSet().SetEquals(card))
        {
            problems.Add(new("engine.valves", $"the file has {string.Join(", ", file)}", $"{engine.Name} has {string.Join(", ", card)}; take the file in as a new engine"));
        }

        if (setup.Card.Engine.Valvetrain.Adjuster != engine.Card.Engine.Valvetrain.Adjuster)
        {
            problems.Add(new("engine.valvetrain", "the file's is another one", $"{engine.Name} has its own; take the file in as a new engine"));
        }

        return problems;
    }
}
