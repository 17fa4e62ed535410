using System.Globalization;
using System.Text;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Tests.Samples;

/// <summary>What a test expects of the reader.</summary>
internal static class Reading
{
    public static ParsedJob Of(string text, JobPurpose purpose = JobPurpose.Estimate) =>
        JobFile.Read(Encoding.UTF8.GetBytes(text), purpose);

    /// <summary>The job is taken.</summary>
    public static Job Takes(JobDraft draft, JobPurpose purpose = JobPurpose.Estimate)
    {
        ParsedJob reading = JobFile.Read(draft.Bytes, purpose);
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        return Assert.IsType<Job>(reading.Job);
    }

    /// <summary>One problem, at this path, saying these words.</summary>
    public static void Refuses(JobDraft draft, string path, string words, JobPurpose purpose = JobPurpose.Estimate) =>
        Refuses(draft.Text, path, words, purpose);

    /// <summary>One problem, at this path, saying these words.</summary>
    public static void Refuses(string text, string path, string words, JobPurpose purpose = JobPurpose.Estimate)
    {
        ParsedJob reading = Of(text, purpose);
        Assert.Null(reading.Job);
        JobProblem problem = Assert.Single(reading.Problems);
        Assert.Equal(path, problem.Path);
        Assert.Contains(words, problem.ToString(), StringComparison.Ordinal);
        AssertOneLine(problem);
    }

    /// <summary>Among what is wrong there is a problem at this path that says these words.</summary>
    public static void Notes(JobDraft draft, string path, string words, JobPurpose purpose = JobPurpose.Estimate)
    {
        ParsedJob reading = JobFile.Read(draft.Bytes, purpose);
        Assert.Null(reading.Job);
        Assert.Contains(reading.Problems, p => p.Path == path && p.ToString().Contains(words, StringComparison.Ordinal));
        Assert.All(reading.Problems, AssertOneLine);
    }

    /// <summary>A problem is one line of plain text with all its three parts.</summary>
    public static void AssertOneLine(JobProblem problem)
    {
        string line = problem.ToString();
        Assert.StartsWith("$", problem.Path, StringComparison.Ordinal);
        Assert.NotEmpty(problem.Found);
        Assert.NotEmpty(problem.Allowed);
        Assert.False(line.Any(char.IsControl), "a control character stands in: " + Printable(line));
        Assert.DoesNotContain("   at Shimwright", line, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", line, StringComparison.Ordinal);
    }

    /// <summary>Text whose control characters are written out, so that a test's message stays text.</summary>
    public static string Printable(string text) => string.Concat(text.Select(c =>
        char.IsControl(c) ? string.Create(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}") : c.ToString()));
}
