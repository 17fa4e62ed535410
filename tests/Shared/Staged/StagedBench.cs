using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Setups;
using Shimwright.Storage;

namespace Shimwright.Testing.Staged;

/// <summary>Puts engines and jobs into a database, each job at a stage.</summary>
internal sealed class StagedBench(BenchDatabase database)
{
    private const string Device = "prepared";

    private static Guid NewId => Guid.CreateVersion7(TimeProvider.System.GetUtcNow());

    /// <summary>Adds the engine of a job file, under its own name or another.</summary>
    public async Task<Guid> AddEngineAsync(ParsedSetup file, string? name = null, CardDetails? details = null)
    {
        Guid engine = NewId;
        await database.Engines.AddAsync(engine, name ?? file.Setup!.Card.Engine.Name, file.Setup!.Card, details ?? new CardDetails { LimitsFrom = "The workshop's own invention" });
        return engine;
    }

    /// <summary>Adds a job on an engine and brings it to a stage, by the rules that hold for what a person sends.</summary>
    public async Task<Guid> AddJobAsync(Guid engine, ParsedSetup file, JobStage stage)
    {
        Guid job = await database.Jobs.StartAsync(engine, file.Setup!, [], NewId, Device);
        foreach (JobFact[] facts in StagedWork.UpTo(stage, file).Chunk(64))
        {
            AddResult result = await database.Jobs.AddAsync(job, new Addition(NewId, Device, int.MaxValue, facts));
            if (!result.IsSaved)
            {
                throw new InvalidOperationException($"The job could not be brought to {stage}: {result.Outcome} {string.Join("; ", result.Problems)}");
            }
        }

        JobStage reached = (await database.Jobs.FindAsync(job))!.Summary.Stage;
        return reached == stage ? job : throw new InvalidOperationException($"The job was to be at {stage} and is at {reached}.");
    }
}
