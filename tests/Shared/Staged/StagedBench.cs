using Shimwright.Bench;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Setups;

namespace Shimwright.Testing.Staged;

/// <summary>Puts engines and jobs on a bench, each job at a stage.</summary>
/// <param name="bench">The bench.</param>
/// <param name="ids">Where ids come from; null for new ones.</param>
internal sealed class StagedBench(IBench bench, Func<Guid>? ids = null)
{
    private const string Device = "prepared";

    private Guid NewId => ids?.Invoke() ?? Guid.CreateVersion7(TimeProvider.System.GetUtcNow());

    /// <summary>Adds the engine of a job file, under its own name or another.</summary>
    public async Task<Guid> AddEngineAsync(ParsedSetup file, string? name = null, CardDetails? details = null)
    {
        Guid engine = NewId;
        await bench.Engines.AddAsync(engine, name ?? file.Setup!.Card.Engine.Name, file.Setup!.Card, details ?? new CardDetails { LimitsFrom = "The workshop's own invention" });
        return engine;
    }

    /// <summary>Adds a job on an engine and brings it to a stage, by the rules that hold for what a person sends.</summary>
    public async Task<Guid> AddJobAsync(Guid engine, ParsedSetup file, JobStage stage)
    {
        Guid job = await AddJobAsync(engine, file, StagedWork.UpTo(stage, file));
        JobStage reached = (await bench.Jobs.FindAsync(job))!.Summary.Stage;
        return reached == stage ? job : throw new InvalidOperationException($"The job was to be at {stage} and is at {reached}.");
    }

    /// <summary>Adds a job on an engine with facts, by the same rules.</summary>
    public async Task<Guid> AddJobAsync(Guid engine, ParsedSetup file, IReadOnlyList<JobFact> facts)
    {
        Guid job = await bench.Jobs.StartAsync(engine, file.Setup!, [], NewId, Device);
        foreach (JobFact[] some in facts.Chunk(64))
        {
            AddResult result = await bench.Jobs.AddAsync(job, new Addition(NewId, Device, int.MaxValue, some));
            if (!result.IsSaved)
            {
                throw new InvalidOperationException($"The job could not be brought on: {result.Outcome} {string.Join("; ", result.Problems)}");
            }
        }

        return job;
    }
}
