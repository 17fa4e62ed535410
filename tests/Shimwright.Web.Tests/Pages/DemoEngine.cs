using Shimwright.Bench.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;

namespace Shimwright.Web.Tests.Pages;

/// <summary>Engines of the demo folder put on a bench.</summary>
internal static class DemoEngine
{
    public static byte[] File(string name = "01-flood-pump.json") => System.IO.File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "demo", name));

    public static ParsedSetup Setup(string name = "01-flood-pump.json") => JobSetup.FromFile(File(name));

    /// <summary>Adds the engine of a job file.</summary>
    public static async Task<Guid> AddAsync(RunningBench bench, string name = "01-flood-pump.json", CardDetails? details = null)
    {
        JobSetup setup = Setup(name).Setup!;
        var id = Guid.NewGuid();
        await bench.Database.Engines.AddAsync(id, setup.Card.Engine.Name, setup.Card, details ?? new CardDetails(), cancel: TestContext.Current.CancellationToken);
        return id;
    }

    /// <summary>Adds the engine of a job file with a job that has the file's check on its sheet.</summary>
    public static async Task<(Guid Engine, Guid Job)> AddWithJobAsync(RunningBench bench, string name = "01-flood-pump.json")
    {
        Guid engine = await AddAsync(bench, name);
        ParsedSetup reading = Setup(name);
        JobFact[] facts = [.. reading.Facts.Where(f => f is ReadingFact { Part: SheetPart.Check } or ThicknessFound)];
        Guid job = await bench.Database.Jobs.StartAsync(engine, reading.Setup!, facts, Guid.NewGuid(), "test", TestContext.Current.CancellationToken);
        return (engine, job);
    }
}
