using Shimwright.Bench;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Testing.Pictures;
using Shimwright.Testing.Staged;

namespace Shimwright.Testing.Workshop;

/// <summary>A bench on which there is something to see in every room: engines, and a job at each stage.</summary>
/// <param name="bench">The bench, empty.</param>
/// <param name="ids">Where ids come from: the same ones make the same bench.</param>
/// <param name="demo">Reads a file of the demo folder.</param>
internal sealed class FullWorkshop(IBench bench, Func<Guid> ids, Func<string, byte[]> demo)
{
    private const string Device = "prepared";
    private const string Shimmed = "01-flood-pump.json";
    private const string Screwed = "06-plant-engine-screws.json";
    private const string ByDepth = "10-by-depth.json";
    private const string Sixteen = "02-worn-four.json";

    private readonly Dictionary<JobStage, Guid> _jobs = [];
    private readonly StagedBench _staged = new(bench, ids);

    /// <summary>The engine with shims.</summary>
    public Guid Engine { get; private set; }

    /// <summary>The engine with screws.</summary>
    public Guid ScrewEngine { get; private set; }

    /// <summary>The engine with sixteen valves.</summary>
    public Guid SixteenEngine { get; private set; }

    /// <summary>A job on sixteen valves that is being planned.</summary>
    public Guid Wide { get; private set; }

    /// <summary>A job with screws that is being planned.</summary>
    public Guid ScrewJob { get; private set; }

    /// <summary>Somebody whose trials are fitted, and somebody who has made none.</summary>
    public Guid Person { get; } = ids();

    public Guid Beginner { get; } = ids();

    /// <summary>A job with depths.</summary>
    public Guid Lifted { get; private set; }

    /// <summary>A job whose camshafts lie dry, with a shim that goes and others that stay.</summary>
    public Guid Dry { get; private set; }

    /// <summary>A job that was closed though a valve did not pass; there once past work is.</summary>
    public Guid Failed { get; private set; }

    /// <summary>An engine in use with a job that was started by mistake, a discarded one beside it.</summary>
    public Guid Spare { get; private set; }

    public Guid Mistake { get; private set; }

    public Guid Discarded { get; private set; }

    /// <summary>A job whose check found nothing to do.</summary>
    public Guid Fine { get; private set; }

    /// <summary>A retired engine.</summary>
    public Guid Sold { get; private set; }

    /// <summary>The workshop's logo.</summary>
    public Guid Logo { get; } = ids();

    /// <summary>The job at a stage.</summary>
    public Guid JobAt(JobStage stage) => _jobs[stage];

    /// <summary>Puts everything there.</summary>
    public async Task FillAsync()
    {
        ParsedSetup shims = Read(Shimmed), screws = Read(Screwed), sixteen = Read(Sixteen), lifted = Read(ByDepth);
        Engine = await _staged.AddEngineAsync(shims);
        foreach (JobStage stage in Enum.GetValues<JobStage>())
        {
            _jobs.Add(stage, await _staged.AddJobAsync(Engine, shims, stage));
        }

        await AddPhotosAsync();
        Dry = await _staged.AddJobAsync(await _staged.AddEngineAsync(shims, "Flood pump 21, laid dry"), shims, StagedWork.UpToADryFit(shims));
        ScrewEngine = await _staged.AddEngineAsync(screws);
        ScrewJob = await _staged.AddJobAsync(ScrewEngine, screws, JobStage.Plan);
        SixteenEngine = await _staged.AddEngineAsync(sixteen);
        Wide = await _staged.AddJobAsync(SixteenEngine, sixteen, JobStage.Plan);
        Lifted = await _staged.AddJobAsync(await _staged.AddEngineAsync(lifted), lifted, JobStage.Plan);
        await bench.Feel.AddAsync(Beginner, ids(), Device, new FeelNamed("Beginner"));
        await bench.Feel.AddAsync(Person, ids(), Device, new FeelNamed("Somebody"));
        await bench.Feel.AddAsync(Person, ids(), Device, new FeelTried([.. TrialFile.Read(demo("feel-trials.csv")).Trials!.Select(TrialMade.Of)]));
        await FillDrawerAsync();
        await FillPumpShedAsync(shims);
        await SetAsideAsync(shims);
        await bench.Due.RefreshStaleAsync(100);
    }

    /// <summary>Adds so many closed jobs that the bench can tell how well its shims seat; in the last of them a valve did not pass.</summary>
    public async Task AddPastWorkAsync()
    {
        const int Jobs = 10;
        ParsedSetup file = Read(Shimmed);
        JobFact[] tight = [.. file.Setup!.Card.Engine.Valves.Select(v => new ClearanceRead(SheetPart.Check, v.Id, v.Band.Low - 0.04, 0.002))];
        JobFact[] facts = [.. StagedWork.UpTo(JobStage.Closed, new(file.Setup, [.. tight, .. file.Facts.OfType<ThicknessFound>()], []))];
        for (int n = 0; n < Jobs; n++)
        {
            double miss = n == Jobs - 1 ? 0.2 : 0.02 - (0.04 * (n % 2));
            Failed = await _staged.AddJobAsync(Engine, file, [.. facts.Select(f => f is ClearanceRead { Part: SheetPart.Recheck } read ? read with { Value = read.Value + miss, U = 0.001 } : f)]);
        }
    }

    /// <summary>Photos of the jobs that are closed and about to be: one for the record, and one that was put away.</summary>
    private async Task AddPhotosAsync()
    {
        Picture picture = ArrivedPicture.Photo(SamplePicture.Jpeg(400, 300, 6)).Picture!;
        foreach (JobStage stage in new[] { JobStage.Close, JobStage.Closed })
        {
            Guid marks = ids(), away = ids();
            await bench.Pictures.AddAsync(marks, _jobs[stage], picture);
            await bench.Pictures.AddAsync(away, _jobs[stage], picture);
            await bench.Jobs.AddAsync(_jobs[stage], new(ids(), Device, int.MaxValue, [new PhotoKept(marks, "marks", "Both marks level with the head", InRecord: true, Removed: false), new PhotoKept(away, "other", "", InRecord: false, Removed: true)]));
        }

        await bench.Pictures.AddAsync(Logo, null, ArrivedPicture.Logo(SamplePicture.Png()).Picture!);
    }

    /// <summary>Shims in the drawer, and kits to compare.</summary>
    private async Task FillDrawerAsync()
    {
        foreach ((double thickness, string by, int count, string place) in new[] { (2.35, "marked", 2, "A1"), (2.40, "marked", 1, "A2"), (2.412, "micrometer", 1, "A2"), (2.50, "marked", 4, "B1") })
        {
            await bench.Drawer.AddAsync(new(ShimSize.Of(9.48, thickness, by), count, place, 7.5), new(ids(), Device));
        }

        await bench.Settings.SaveAsync(new BenchSettings
        {
            Currency = "EUR",
            Workshop = new("Pump and Engine Works", "Quay 3\nHarbour town", Logo),
            TimeZone = "Europe/Vienna",
            KitsOffered = [new("Small box", 9.48, 2.0, 3.0, 0.1, 3, 60), new("Big box", 9.48, 1.2, 3.5, 0.025, 2, 320), new("Small box, dear", 9.48, 2.0, 3.0, 0.1, 3, 75)],
        }, 0, Device);
    }

    /// <summary>What was discarded and retired, and what is about to be.</summary>
    private async Task SetAsideAsync(ParsedSetup shims)
    {
        Spare = await _staged.AddEngineAsync(shims, "Flood pump 30");
        Mistake = await _staged.AddJobAsync(Spare, shims, JobStage.Measure);
        Discarded = await _staged.AddJobAsync(Spare, shims, JobStage.Closed);
        await bench.Jobs.AddAsync(Discarded, new(ids(), Device, int.MaxValue, [new JobDiscarded()]));
        Fine = await _staged.AddJobAsync(Spare, shims, [.. shims.Setup!.Card.Engine.Valves.Select(v => new ClearanceRead(SheetPart.Check, v.Id, v.Band.Middle, 0.003))]);
        Sold = await _staged.AddEngineAsync(shims, "Flood pump 31, sold");
        await bench.Engines.RetireAsync(Sold, true);
    }

    /// <summary>Engines that will be due soon and want shims, and shims that were measured against their marks.</summary>
    private async Task FillPumpShedAsync(ParsedSetup shims)
    {
        for (int n = 11; n < 14; n++)
        {
            Guid engine = await _staged.AddEngineAsync(shims, $"Flood pump {n}", new CardDetails { ShimDiameter = 9.48 });
            await _staged.AddJobAsync(engine, shims, JobStage.Closed);
            await bench.Due.StateUsageAsync(engine, 40);
            await bench.Jobs.StartAsync(engine, shims.Setup!,
            [
                .. shims.Setup!.Card.Engine.Valves.Index().SelectMany(v => new JobFact[]
                {
                    new ThicknessFound(v.Item.Id, 2.3 + (0.05 * v.Index), "marked"),
                    new ThicknessFound(v.Item.Id, 2.3 + (0.05 * v.Index) + (0.004 * (n - 12.5)) - (0.003 * v.Index), "micrometer"),
                }),
            ], ids(), Device);
        }
    }

    private ParsedSetup Read(string file) => JobSetup.FromFile(demo(file));
}
