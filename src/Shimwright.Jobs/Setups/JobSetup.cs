using System.Text.Json.Nodes;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Setups;

/// <summary>A job taken in: what it starts from and the facts that stood in it, or everything that is wrong.</summary>
/// <param name="Setup">What the job starts from; null where there are problems.</param>
/// <param name="Facts">The facts that stood in it, in its order.</param>
/// <param name="Problems">All problems.</param>
public sealed record ParsedSetup(JobSetup? Setup, IReadOnlyList<JobFact> Facts, IReadOnlyList<JobProblem> Problems);

/// <summary>What a job starts from: a job without readings. The facts of the sheet are laid over it.</summary>
public sealed class JobSetup
{
    private JobSetup(EngineCard card, WrittenJob written, Job start, string json)
    {
        Card = card;
        Written = written;
        Start = start;
        Json = json;
    }

    /// <summary>The engine card as it was when the job was started.</summary>
    public EngineCard Card { get; }

    /// <summary>The job as it was when it was started, before any fact.</summary>
    public Job Start { get; }

    /// <summary>The same as it was written down.</summary>
    public WrittenJob Written { get; }

    /// <summary>The setup as JSON in one line, the form in which it is kept.</summary>
    public string Json { get; }

    /// <summary>Starts a job on an engine.</summary>
    /// <param name="card">The engine card.</param>
    /// <param name="clock">The engine's clock.</param>
    /// <param name="temperature">Engine temperature, °C.</param>
    /// <param name="start">What the bench has of its own: history, costs, settings and stock, blades and loss.</param>
    /// <returns>The setup, or what is wrong.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="card"/> or <paramref name="start"/> is null.</exception>
    /// <exception cref="InvalidOperationException">The job can be read with its facts and not without them, which no rule allows for.</exception>
    public static ParsedSetup Begin(EngineCard card, double clock, double temperature, WrittenStart start)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(start);
        return !double.IsFinite(clock) || !double.IsFinite(temperature)
            ? new(null, [], [new(double.IsFinite(clock) ? "$.check.temperatureC" : "$.check.clock", "found no number", "a finite number is needed")])
            : FromRecord(card, new(new(clock, temperature, [], start.Blades, start.Loss), start.History, start.Stock, start.Costs, start.Settings));
    }

    /// <summary>Takes a job in that is a record already.</summary>
    /// <param name="card">The engine card.</param>
    /// <param name="written">The job on that engine.</param>
    /// <returns>The setup and the facts that stood in the job, or what is wrong.</returns>
    internal static ParsedSetup FromRecord(EngineCard card, WrittenJob written)
    {
        ParsedJob reading = JobFile.Read(written, card.Section, JobPurpose.Draft);
        return reading.Job is { } job
            ? Of(card, job, written, JobFile.Document(card.Json, WithoutFacts(written)).ToJsonString())
            : new(null, [], reading.Problems);
    }

    /// <summary>Takes a job file in.</summary>
    /// <param name="utf8">The file.</param>
    /// <returns>The setup and the facts that stood in the file, or what is wrong.</returns>
    /// <exception cref="InvalidOperationException">The file can be read with its facts and not without them, which no rule allows for.</exception>
    public static ParsedSetup FromFile(ReadOnlyMemory<byte> utf8)
    {
        ParsedJob reading = JobFile.Read(utf8, JobPurpose.Draft);
        if (reading.Job is not { } job)
        {
            return new(null, [], reading.Problems);
        }

        ReadOnlyMemory<byte> text = JobFile.WithoutMark(utf8);
        var file = (JsonObject)JsonNode.Parse(text.Span)!;
        file.Remove("recheck");
        var check = (JsonObject)file["check"]!;
        check["readings"] = new JsonArray();
        check.Remove("fitted");
        return Of(new EngineCard(job.Sections.Engine!, file["engine"]!.ToJsonString()), job, WrittenJson.Read(text.Span), file.ToJsonString());
    }

    /// <summary>Reads a setup that was kept.</summary>
    /// <param name="json">JSON that was written here.</param>
    /// <returns>The setup.</returns>
    /// <exception cref="InvalidOperationException">It is no setup that was written here.</exception>
    public static JobSetup Read(string json) =>
        FromFile(System.Text.Encoding.UTF8.GetBytes(json)) is { Setup: { } setup }
            ? setup
            : throw new InvalidOperationException("What a job started from can no longer be read.");

    private static ParsedSetup Of(EngineCard card, Job job, WrittenJob written, string json)
    {
        IReadOnlyList<JobFact> facts = FactsOf(job, written.Recheck is not null);
        WrittenJob kept = WithoutFacts(written);
        // What was kept has no facts in it and need not be read again without them.
        Job start = facts.Count == 0 ? job : JobFile.Read(kept, job, JobPurpose.Draft).Job
            ?? throw new InvalidOperationException("A job that could be read cannot be read without its readings.");
        return new(new JobSetup(card, kept, start, json), facts, []);
    }

    private static WrittenJob WithoutFacts(WrittenJob written) =>
        written with { Recheck = null, Check = written.Check with { Readings = [], Fitted = null } };

    private static IReadOnlyList<JobFact> FactsOf(Job job, bool hasRecheck) =>
    [
        .. job.Engine.Valves.SelectMany(v => FactImport.Readings(SheetPart.Check, v.Id, job.Sections.Check!.Readings.AllAt(v.Id), job.Depths)),
        .. job.Engine.Valves.Where(v => job.FittedAt(v) is not null)
            .Select(v => new ThicknessFound(v.Id, job.FittedAt(v)!.Millimetres, job.FittedAt(v)!.By.Name)),
        .. job.DryFits.Zip(job.Sections.Recheck?.DryFits ?? []).SelectMany(dry => FactImport.DryFit(dry.First, dry.Second.Readings, job.Engine)),
        .. job.LastChanges.Select(c => FactImport.Change(c, job.Engine)),
        .. hasRecheck ? [new RecheckStated(job.RecheckTemperature)] : Array.Empty<JobFact>(),
        .. job.Engine.Valves.SelectMany(v => FactImport.Readings(SheetPart.Recheck, v.Id, job.Sections.Recheck?.Readings.AllAt(v.Id) ?? ValveReadings.None, [])),
    ];
}
