using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs;

/// <summary>A job read from a file, or everything that is wrong with it.</summary>
/// <param name="Job">The job; null where there are problems.</param>
/// <param name="Problems">All problems, in the order of the file's sections; of very many the first.</param>
public sealed record ParsedJob(Job? Job, IReadOnlyList<JobProblem> Problems);

/// <summary>The job file, format shimwright-job/1: reading with every problem at once, as far as anybody reads them, and its schema.</summary>
public static class JobFile
{
    /// <summary>The largest file that is taken, bytes.</summary>
    public const int LargestBytes = Limits.LargestJobFile;

    /// <summary>Reads a job for a purpose; what the purpose needs is asked for together with everything else.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <param name="purpose">What it is read for.</param>
    /// <returns>The job, or all problems.</returns>
    public static ParsedJob Read(ReadOnlyMemory<byte> utf8, JobPurpose purpose)
    {
        List<JobProblem> problems = [];
        return Finish(ReadObject(utf8, problems, JobSections.Read), purpose, problems);
    }

    /// <summary>Reads a job that is a record already, on an engine whose card was read; the rules and the problems are those of a file.</summary>
    internal static ParsedJob Read(WrittenJob written, EngineSection card, JobPurpose purpose)
    {
        List<JobProblem> problems = [];
        return Finish(ReadRecord(written, problems, o => JobSections.ReadOn(o, card)), purpose, problems);
    }

    /// <summary>Reads a job as it has become; its engine, its settings and its past are those that it started with.</summary>
    internal static ParsedJob Read(WrittenJob written, Job start, JobPurpose purpose)
    {
        List<JobProblem> problems = [];
        JobSections from = start.Sections;
        return Finish(ReadRecord(written, problems, o => JobSections.ReadNow(o, from.Engine, from.Settings, (from.History, from.Rounds))), purpose, problems, start);
    }

    /// <summary>What is wrong with a job that is a record, on an engine whose card was read.</summary>
    internal static IReadOnlyList<JobProblem> Problems(WrittenJob written, EngineSection card)
    {
        List<JobProblem> problems = [];
        ReadRecord(written, problems, o => JobSections.ReadOn(o, card));
        return FirstProblems.OfReading(problems);
    }

    /// <summary>A job file as a document.</summary>
    /// <param name="card">The engine card as JSON.</param>
    /// <param name="written">The job on that engine.</param>
    internal static JsonObject Document(string card, WrittenJob written)
    {
        JsonObject file = new() { ["format"] = JobSections.Format, ["engine"] = JsonNode.Parse(card) };
        JsonObject members = WrittenJson.Write(written);
        foreach ((string name, JsonNode? member) in members.ToArray())
        {
            members.Remove(name);
            file[name] = member;
        }

        return file;
    }

    /// <summary>The JSON Schema (draft 2020-12) of the job file, made from the code that reads it.</summary>
    /// <returns>The schema as indented JSON, ending in a line feed.</returns>
    public static string Schema()
    {
        JsonObject schema = new()
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "Shimwright job file, format " + JobSections.Format,
            ["description"] = "Lengths are millimetres, temperatures degrees Celsius, times of work minutes, clocks hours or km. "
                + "What one member means for another (names that must exist, limits about a band) is said in the guide.",
        };
        foreach ((string name, JsonNode? value) in SchemaMembers.Describe(JobSections.Read).ToArray())
        {
            schema[name] = value?.DeepClone();
        }

        var options = new JsonSerializerOptions { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
        return schema.ToJsonString(options).ReplaceLineEndings("\n") + "\n";
    }

    /// <summary>Reads one object of a file; null, with the problem noted, where the file is no text or no JSON.</summary>
    internal static T? ReadObject<T>(ReadOnlyMemory<byte> utf8, List<JobProblem> problems, Func<ObjectMembers, T?> read)
        where T : class
    {
        if (utf8.Length > LargestBytes)
        {
            problems.Add(new("$", $"found {utf8.Length} bytes", $"a job file has at most {LargestBytes}"));
            return null;
        }

        ReadOnlyMemory<byte> text = WithoutMark(utf8);
        if (!Utf8.IsValid(text.Span))
        {
            problems.Add(new("$", "some bytes are no text in UTF-8", "save the file as UTF-8"));
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(text);
            return JsonMembers.Read("$", document.RootElement, problems, read);
        }
        catch (JsonException syntax)
        {
            problems.Add(SyntaxProblem.Of(text.Span, syntax));
            return null;
        }
    }

    private static JobSections? ReadRecord(WrittenJob written, List<JobProblem> problems, Func<ObjectMembers, JobSections?> read) =>
        RecordMembers.Read("$", written, WrittenJson.Names, problems, read);

    private static ParsedJob Finish(JobSections? sections, JobPurpose purpose, List<JobProblem> problems, Job? start = null)
    {
        if (sections is not null && !FirstProblems.AreEnough(problems))
        {
            JobNeeds.Note(sections, purpose, problems);
        }

        return problems.Count == 0 ? new(new Job(sections!, start), []) : new(null, FirstProblems.OfReading(problems));
    }

    internal static ReadOnlyMemory<byte> WithoutMark(ReadOnlyMemory<byte> utf8) =>
        utf8.Span.StartsWith(Encoding.UTF8.Preamble) ? utf8[Encoding.UTF8.Preamble.Length..] : utf8;
}
