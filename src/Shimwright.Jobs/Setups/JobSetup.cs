using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Setups;

/// <summary>A job file taken in: what the job starts from and the facts that stood in it, or everything that is wrong.</summary>
/// <param name="Setup">What the job starts from; null where there are problems.</param>
/// <param name="Facts">The facts that stood in the file, in its order.</param>
/// <param name="Problems">All problems.</param>
public sealed record ParsedSetup(JobSetup? Setup, IReadOnlyList<JobFact> Facts, IReadOnlyList<JobProblem> Problems);

/// <summary>What a job starts from: a job file without readings. The facts of the sheet are laid over it.</summary>
public sealed class JobSetup
{
    private readonly JsonObject _file;

    private JobSetup(JsonObject file, EngineCard card, Job job)
    {
        _file = file;
        Json = file.ToJsonString();
        Card = card;
        Start = job;
    }

    /// <summary>The engine card as it was when the job was started.</summary>
    public EngineCard Card { get; }

    /// <summary>The job as it was when it was started, before any fact.</summary>
    public Job Start { get; }

    /// <summary>The setup as JSON in one line, the form in which it is kept.</summary>
    public string Json { get; }

    /// <summary>A job file of its own that may be written to.</summary>
    internal JsonObject NewFile() => (JsonObject)_file.DeepClone();

    /// <summary>Starts a job on an engine.</summary>
    /// <param name="card">The engine card.</param>
    /// <param name="clock">The engine's clock.</param>
    /// <param name="temperature">Engine temperature, °C.</param>
    /// <param name="bench">The members "history", "costs", "settings" and "stock", and "blades" and "loss" for the check, each where the bench has its own.</param>
    /// <returns>The setup, or what is wrong.</returns>
    public static ParsedSetup Begin(EngineCard card, double clock, double temperature, JsonObject bench)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(bench);
        if (!double.IsFinite(clock) || !double.IsFinite(temperature))
        {
            return new(null, [], [new(double.IsFinite(clock) ? "$.check.temperatureC" : "$.check.clock", "found no number", "a finite number is needed")]);
        }

        JsonObject check = new() { ["clock"] = clock, ["temperatureC"] = temperature, ["readings"] = new JsonArray() };
        foreach (string name in new[] { "blades", "loss" })
        {
            if (bench[name] is { } value)
            {
                check[name] = value.DeepClone();
            }
        }

        JsonObject file = new() { ["format"] = "shimwright-job/1", ["engine"] = JsonNode.Parse(card.Json), ["check"] = check };
        foreach (string name in new[] { "history", "stock", "costs", "settings" })
        {
            if (bench[name] is { } value)
            {
                file[name] = value.DeepClone();
            }
        }

        return FromFile(Encoding.UTF8.GetBytes(file.ToJsonString()));
    }

    /// <summary>Takes a job file in.</summary>
    /// <param name="utf8">The file.</param>
    /// <returns>The setup and the facts that stood in the file, or what is wrong.</returns>
    public static ParsedSetup FromFile(ReadOnlyMemory<byte> utf8)
    {
        ParsedJob reading = JobFile.Read(utf8, JobPurpose.Draft);
        if (reading.Job is not { } job)
        {
            return new(null, [], reading.Problems);
        }

        var file = (JsonObject)JsonNode.Parse(JobFile.WithoutMark(utf8).Span)!;
        bool hasRecheck = file.Remove("recheck");
        IReadOnlyList<JobFact> facts = FactsOf(job, hasRecheck);
        var check = (JsonObject)file["check"]!;
        check["readings"] = new JsonArray();
        check.Remove("fitted");
        // What was kept has no facts in it and need not be read again without them.
        if (EngineCard.Read((JsonObject)file["engine"]!).Card is not { } card
            || (facts.Count == 0 ? job : JobFile.Read(Encoding.UTF8.GetBytes(file.ToJsonString()), JobPurpose.Draft).Job) is not { } start)
        {
            throw new InvalidOperationException("A job file that could be read cannot be read without its readings.");
        }

        return new(new JobSetup(file, card, start), facts, []);
    }

    /// <summary>Reads a setup that was kept.</summary>
    /// <param name="json">JSON that was written here.</param>
    /// <returns>The setup.</returns>
    public static JobSetup Read(string json) =>
        FromFile(Encoding.UTF8.GetBytes(json)) is { Setup: { } setup }
            ? setup
            : throw new InvalidOperationException("What a job started from can no longer be read.");

    private static IReadOnlyList<JobFact> FactsOf(Job job, bool hasRecheck) =>
    [
        .. job.Engine.Valves.SelectMany((v, i) => FactImport.Readings(SheetPart.Check, v.Id, job.Check.Readings[i], job.Depths)),
        .. job.Engine.Valves.Where(v => job.FittedAt(v) is not null)
            .Select(v => new ThicknessFound(v.Id, job.FittedAt(v)!.Millimetres, job.FittedAt(v)!.By.Name)),
        .. job.Changes.Select(c => FactImport.Change(c, job.Engine)),
        .. hasRecheck ? [new RecheckStated(job.RecheckTemperature)] : Array.Empty<JobFact>(),
        .. job.Engine.Valves.SelectMany((v, i) => FactImport.Readings(SheetPart.Recheck, v.Id, job.Rechecked[i], [])),
    ];
}
