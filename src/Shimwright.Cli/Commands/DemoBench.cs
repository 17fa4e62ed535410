using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;
using Shimwright.Storage.Engines;

namespace Shimwright.Cli.Commands;

/// <summary>The demo workshop as a bench: its engines, and its jobs at different stages.</summary>
internal static class DemoBench
{
    private const string Device = "demo";

    /// <summary>Fills an empty database with the demo workshop.</summary>
    /// <returns>The job that is in the middle of being measured.</returns>
    public static async Task<Guid> FillAsync(BenchDatabase database)
    {
        Guid inProgress = default;
        foreach ((string file, _) in DemoTour.Stops)
        {
            SetupReading reading = JobSetup.FromFile(await File.ReadAllBytesAsync(Path.Combine(DemoCommand.Folder, file)));
            JobSetup setup = reading.Setup ?? throw new InvalidDataException($"{file}: {string.Join("; ", reading.Problems)}");
            var engine = Guid.CreateVersion7(TimeProvider.System.GetUtcNow());
            await database.Engines.AddAsync(engine, setup.Card.Engine.Name, setup.Card, new CardDetails { LimitsFrom = "The demo's own invention" });
            bool isFirst = inProgress == default;
            Guid job = await database.Jobs.StartAsync(
                engine, setup, isFirst ? Begun(setup, reading.Facts) : CheckOf(reading.Facts), Guid.CreateVersion7(TimeProvider.System.GetUtcNow()), Device);
            inProgress = isFirst ? job : inProgress;
        }

        return inProgress;
    }

    /// <summary>The check without what was done after it.</summary>
    private static List<JobFact> CheckOf(IEnumerable<JobFact> facts) =>
        [.. facts.Where(f => f is ReadingFact { Part: SheetPart.Check } or ThicknessFound)];

    /// <summary>The readings of all valves but the last.</summary>
    private static List<JobFact> Begun(JobSetup setup, IEnumerable<JobFact> facts)
    {
        string last = setup.Card.Engine.Valves[^1].Id;
        return [.. facts.OfType<ReadingFact>().Where(r => r.Part == SheetPart.Check && r.Valve != last)];
    }
}
