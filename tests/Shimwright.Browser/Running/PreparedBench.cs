using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Storage;
using Shimwright.Testing.Served;
using Shimwright.Testing.Staged;

namespace Shimwright.Browser.Running;

/// <summary>A served bench on which there is something to see in every room: engines, and a job at each stage.</summary>
public sealed class PreparedBench : IAsyncLifetime
{
    private const string Shimmed = "01-dusty-single.json";
    private const string Screwed = "06-plant-engine-screws.json";
    private const string ByDepth = "10-by-depth.json";
    private const string Sixteen = "02-worn-four.json";

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-browser-").FullName;
    private readonly Dictionary<JobStage, Guid> _jobs = [];
    private ServedBench? _bench;

    internal Uri Address => _bench!.Address;

    /// <summary>The engine with shims.</summary>
    internal Guid Engine { get; private set; }

    /// <summary>The engine with screws.</summary>
    internal Guid ScrewEngine { get; private set; }

    /// <summary>A job on sixteen valves that is being planned.</summary>
    internal Guid Wide { get; private set; }

    /// <summary>A job with screws that is being planned.</summary>
    internal Guid ScrewJob { get; private set; }

    /// <summary>Somebody whose trials are fitted, and somebody who has made none.</summary>
    internal Guid Person { get; } = Guid.NewGuid();

    internal Guid Beginner { get; } = Guid.NewGuid();

    /// <summary>A job with depths.</summary>
    internal Guid Lifted { get; private set; }

    /// <summary>The job at a stage.</summary>
    internal Guid JobAt(JobStage stage) => _jobs[stage];

    public async ValueTask InitializeAsync()
    {
        string file = Path.Combine(_folder, "bench.db");
        var database = BenchDatabase.At(file, TimeProvider.System);
        await database.PrepareAsync();
        var staged = new StagedBench(database);
        ParsedSetup shims = Read(Shimmed), screws = Read(Screwed), sixteen = Read(Sixteen);
        Engine = await staged.AddEngineAsync(shims);
        foreach (JobStage stage in Enum.GetValues<JobStage>())
        {
            _jobs.Add(stage, await staged.AddJobAsync(Engine, shims, stage));
        }

        ScrewEngine = await staged.AddEngineAsync(screws);
        ScrewJob = await staged.AddJobAsync(ScrewEngine, screws, JobStage.Plan);
        Wide = await staged.AddJobAsync(await staged.AddEngineAsync(sixteen), sixteen, JobStage.Plan);
        ParsedSetup lifted = Read(ByDepth);
        Lifted = await staged.AddJobAsync(await staged.AddEngineAsync(lifted), lifted, JobStage.Plan);
        await database.Feel.AddAsync(Beginner, Guid.NewGuid(), "test", new FeelNamed("Beginner"));
        await database.Feel.AddAsync(Person, Guid.NewGuid(), "test", new FeelNamed("Somebody"));
        await database.Feel.AddAsync(Person, Guid.NewGuid(), "test", new FeelTried(
            [.. TrialFile.Read(File.ReadAllBytes(Repository.Demo("feel-trials.csv"))).Trials!.Select(TrialMade.Of)]));
        await FillDrawerAsync(database, staged, shims);
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        _bench = await ServedBench.StartAsync(file, _folder);
    }

    public async ValueTask DisposeAsync()
    {
        if (_bench is not null)
        {
            await _bench.DisposeAsync();
        }

        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>Shims in the drawer, kits to compare, and an engine that will be due soon and wants some.</summary>
    private static async Task FillDrawerAsync(BenchDatabase database, StagedBench staged, ParsedSetup shims)
    {
        foreach ((double thickness, string by, int count, string place) in new[] { (2.35, "marked", 2, "A1"), (2.40, "marked", 1, "A2"), (2.412, "micrometer", 1, "A2"), (2.50, "marked", 4, "B1") })
        {
            await database.Drawer.AddAsync(new(ShimSize.Of(9.48, thickness, by), count, place, 7.5), new(Guid.NewGuid(), "prepared"));
        }

        await database.Settings.SaveAsync(new BenchSettings
        {
            Currency = "EUR",
            KitsOffered = [new("Small box", 9.48, 2.0, 3.0, 0.1, 3, 60), new("Big box", 9.48, 1.2, 3.5, 0.025, 2, 320), new("Small box, dear", 9.48, 2.0, 3.0, 0.1, 3, 75)],
        }, 0, "prepared");
        for (int n = 11; n < 14; n++)
        {
            Guid engine = await staged.AddEngineAsync(shims, $"Hire bike {n}", new CardDetails { ShimDiameter = 9.48 });
            await staged.AddJobAsync(engine, shims, JobStage.Closed);
            await database.Due.StateUsageAsync(engine, 40);
            await database.Jobs.StartAsync(engine, shims.Setup!,
            [
                .. shims.Setup!.Card.Engine.Valves.Index().SelectMany(v => new JobFact[]
                {
                    new ThicknessFound(v.Item.Id, 2.3 + (0.05 * v.Index), "marked"),
                    new ThicknessFound(v.Item.Id, 2.3 + (0.05 * v.Index) + (0.004 * (n - 12.5)) - (0.003 * v.Index), "micrometer"),
                }),
            ], Guid.NewGuid(), "prepared");
        }

        await database.Due.RefreshStaleAsync(100);
    }

    private static ParsedSetup Read(string demo) => JobSetup.FromFile(File.ReadAllBytes(Repository.Demo(demo)));
}
