using System.Data.Common;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Contents;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Setups;
using Shimwright.Storage;
using Shimwright.Storage.Database;
using Shimwright.Testing.Served;
using Shimwright.Testing.Staged;

namespace Shimwright.Load;

/// <summary>A workshop of many years: engines of four kinds, closed jobs with their records, and some open jobs at every stage.</summary>
internal sealed class FilledBench
{
    private const int OpenJobs = 300;
    private const int Batch = 100;

    /// <summary>Four and sixteen valves, shims under and over the bucket, and screws.</summary>
    private static readonly string[] Kinds = ["01-flood-pump.json", "02-worn-four.json", "04-shim-over-bucket-twin.json", "06-plant-engine-screws.json"];

    /// <summary>How many ways the engines of one card have worn.</summary>
    private const int Pasts = 24;

    private readonly BenchDatabase _database;
    private readonly bool _isOneCard;
    private readonly Random _random = new(4_711);
    private readonly List<Guid> _engines = [];
    private readonly Dictionary<JobStage, List<Guid>> _jobs = Enum.GetValues<JobStage>().ToDictionary(s => s, _ => new List<Guid>());

    private FilledBench(BenchDatabase database, bool isOneCard) => (_database, _isOneCard) = (database, isOneCard);

    public IReadOnlyList<Guid> Engines => _engines;

    public IReadOnlyList<Guid> JobsAt(JobStage stage) => _jobs[stage];

    /// <summary>Every job that is open, whatever its stage.</summary>
    public IReadOnlyList<Guid> Open => [.. _jobs.Where(j => j.Key != JobStage.Closed).SelectMany(j => j.Value)];

    /// <summary>Fills a bench.</summary>
    /// <param name="database">The bench.</param>
    /// <param name="engines">How many engines.</param>
    /// <param name="jobs">How many jobs.</param>
    /// <param name="isOneCard">Whether all engines are of one card and were checked three times, so that they teach its rates; else each has its own.</param>
    public static async Task<FilledBench> MakeAsync(BenchDatabase database, int engines, int jobs, bool isOneCard = false)
    {
        await database.PrepareAsync();
        var filled = new FilledBench(database, isOneCard);
        ParsedSetup[] files = [.. isOneCard ? OneCard() : Kinds.Select(k => JobSetup.FromFile(File.ReadAllBytes(Repository.Demo(k))))];
        var staged = new StagedBench(database);
        for (int i = 0; i < engines; i++)
        {
            filled._engines.Add(await staged.AddEngineAsync(files[i % files.Length], FormattableString.Invariant($"Hire engine {i + 1:0000}")));
        }

        if (isOneCard)
        {
            await using BenchContext context = database.NewContext();
            Guid first = filled._engines[0], card = await context.Engines.Where(e => e.Id == first).Select(e => e.CardId).SingleAsync();
            await context.Engines.ExecuteUpdateAsync(s => s.SetProperty(e => e.CardId, card).SetProperty(e => e.Sum, (long?)null));
        }

        await filled.AddJobsAsync(staged, files, jobs);
        await filled.ForecastAsync();
        // Checksums of what was copied, and the copy of the day, as after the first minutes of a bench in use: a server that is to be measured need not make them.
        await database.PrepareAsync();
        return (await database.Copies.MakeAsync()).Failure is { } failure ? throw new InvalidOperationException(failure) : filled;
    }

    /// <summary>A job whose engine was checked three times, at other hours each time, so that it wore faster or more slowly.</summary>
    private static IEnumerable<ParsedSetup> OneCard()
    {
        string text = File.ReadAllText(Repository.Demo("09-third-check.json"));
        for (int i = 0; i < Pasts; i++)
        {
            yield return JobSetup.FromFile(Encoding.UTF8.GetBytes(text
                .Replace("\"clock\": 103", FormattableString.Invariant($"\"clock\": {70 + (3 * i)}"), StringComparison.Ordinal)
                .Replace("\"clock\": 158", FormattableString.Invariant($"\"clock\": {150 + (7 * (i % 5))}"), StringComparison.Ordinal)));
        }
    }

    /// <summary>One job of each kind at each stage is worked on by the rules; the others are copies of those, on engines of the same kind.</summary>
    private async Task AddJobsAsync(StagedBench staged, ParsedSetup[] files, int jobs)
    {
        var models = new Dictionary<(int Kind, JobStage Stage), Guid>();
        for (int kind = 0; kind < files.Length; kind++)
        {
            foreach (JobStage stage in Stages(files[kind]))
            {
                Guid model = await staged.AddJobAsync(_engines[kind], files[kind], stage);
                models.Add((kind, stage), model);
                _jobs[stage].Add(model);
            }
        }

        await using BenchContext context = _database.NewContext();
        await context.Database.OpenConnectionAsync();
        await using DbTransaction transaction = await context.Database.GetDbConnection().BeginTransactionAsync();
        var copy = new JobCopy(context, transaction);
        for (int i = models.Count; i < jobs; i++)
        {
            int engine = i % _engines.Count;
            int kind = engine % files.Length;
            JobStage[] stages = [.. Stages(files[kind])];
            JobStage stage = i < jobs - OpenJobs ? JobStage.Closed : stages[_random.Next(stages.Length - 1)];
            _jobs[stage].Add(await copy.AddAsync(models[(kind, stage)], _engines[engine], minutesAgo: jobs - i));
        }

        await context.Counts.Where(c => c.Name == KeptCount.Jobs).ExecuteUpdateAsync(s => s.SetProperty(c => c.Last, jobs));
        await transaction.CommitAsync();
    }

    /// <summary>Every engine has its forecast, as on a bench that has run for a while.</summary>
    private async Task ForecastAsync()
    {
        await using (BenchContext context = _database.NewContext())
        {
            await context.Engines.Where(e => e.Changes == 0).ExecuteUpdateAsync(s => s.SetProperty(e => e.Changes, 1));
        }

        while (await _database.Due.RefreshStaleAsync(Batch) > 0)
        {
        }
    }

    /// <summary>Whether the engines of one card need new shims depends on how they wore: their jobs are open before that is known, or closed.</summary>
    private IEnumerable<JobStage> Stages(ParsedSetup file) => _isOneCard
        ? [JobStage.Measure, JobStage.Closed]
        : Enum.GetValues<JobStage>().Where(s => s != JobStage.Shims || file.Setup!.Card.Engine.Valvetrain.HasShims);
}
