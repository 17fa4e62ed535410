using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;

namespace Shimwright.Jobs;

/// <summary>A job read from a file, or everything that is wrong with it.</summary>
/// <param name="Job">The job; null where there are problems.</param>
/// <param name="Problems">All problems, in the order of the file's sections.</param>
public sealed record ParsedJob(Job? Job, IReadOnlyList<JobProblem> Problems);

/// <summary>The job file, format shimwright-job/1: reading with every problem at once, and its schema.</summary>
public static class JobFile
{
    /// <summary>The largest file that is taken, bytes.</summary>
    public const int LargestBytes = 32 * 1024 * 1024;

    /// <summary>Reads a job for a purpose; what the purpose needs is asked for together with everything else.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <param name="purpose">What it is read for.</param>
    /// <returns>The job, or all problems.</returns>
    public static ParsedJob Read(ReadOnlyMemory<byte> utf8, JobPurpose purpose)
    {
        List<JobProblem> problems = [];
        JobSections? sections = ReadObject(utf8, problems, JobSections.Read);
        if (sections is not null)
        {
            JobNeeds.Note(sections, purpose, problems);
        }

        return problems.Count == 0 ? new(new Job(sections!), []) : new(null, [.. problems.Distinct()]);
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

    internal static ReadOnlyMemory<byte> WithoutMark(ReadOnlyMemory<byte> utf8) =>
        utf8.Span.StartsWith(Encoding.UTF8.Preamble) ? utf8[Encoding.UTF8.Preamble.Length..] : utf8;
}
