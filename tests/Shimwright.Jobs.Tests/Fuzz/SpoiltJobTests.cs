using System.Globalization;
using System.Text;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Testing;

namespace Shimwright.Jobs.Tests.Fuzz;

/// <summary>Spoilt job files, read for every purpose: each is answered or refused in words, and nothing is thrown.</summary>
public class SpoiltJobTests
{
    private static readonly int FilesPerDemo = Effort.Cases(100, 3_000);

    public static TheoryData<string> Demos() => [.. Demo.Files];

    [Theory]
    [Long]
    [MemberData(nameof(Demos))]
    public void ReadAndAnswer_SpoiltJobs_NeverThrow(string demo)
    {
        string text = Demo.WithRecheck(demo);
        int first = Demo.Files.ToList().IndexOf(demo) * FilesPerDemo;
        Dictionary<JobPurpose, int> answered = Enum.GetValues<JobPurpose>().ToDictionary(p => p, _ => 0);
        Dictionary<string, string> thrown = [];
        for (int seed = first; seed < first + FilesPerDemo; seed++)
        {
            byte[] file = new JobMutator(seed).Spoil(text);
            foreach (JobPurpose purpose in Enum.GetValues<JobPurpose>().Where(p => seed % Every(p) == 0))
            {
                try
                {
                    answered[purpose] += Answer(file, purpose) ? 1 : 0;
                }
#pragma warning disable CA1031 // Anything at all that is thrown is what this test looks for.
                catch (Exception e)
                {
                    thrown.TryAdd(
                        Where(e),
                        string.Create(CultureInfo.InvariantCulture, $"seed {seed}, {purpose}: {Reading.Printable(e.Message)}\n{e.StackTrace}\n{Reading.Printable(Encoding.UTF8.GetString(file))}"));
                }
#pragma warning restore CA1031
            }
        }

        Assert.True(thrown.Count == 0, string.Join("\n\n", thrown.Select(t => $"{t.Key}\n{t.Value}")));
        Assert.All(answered.Where(a => IsAnswered(text, a.Key)), a =>
        {
            int files = FilesPerDemo / Every(a.Key);
            Assert.True(a.Value > files / 20, $"only {a.Value} answers for {a.Key}: the mutations are too harsh to test anything but the reader");
            Assert.True(a.Value <= files * 19 / 20, $"{a.Value} answers for {a.Key}: the mutations are too mild");
        });
    }

    /// <summary>Advice plans each job some hundred times over: a fifth of the files are enough for it.</summary>
    private static int Every(JobPurpose purpose) => purpose is JobPurpose.Next or JobPurpose.SecondNext ? 5 : 1;

    /// <summary>Not every demo says enough for every purpose; but some demo does for each.</summary>
    [Fact]
    public void Purposes_Each_AreAnsweredForSomeDemo() =>
        Assert.All(Enum.GetValues<JobPurpose>(), p => Assert.Contains(Demo.Files, f => IsAnswered(Demo.WithRecheck(f), p)));

    private static bool IsAnswered(string text, JobPurpose purpose) => JobFile.Read(Encoding.UTF8.GetBytes(text), purpose).Job is not null;

    /// <summary>Whether there was an answer; its numbers are written as JSON, which knows no NaN.</summary>
    private static bool Answer(byte[] file, JobPurpose purpose)
    {
        ParsedJob reading = JobFile.Read(file, purpose);
        if (reading.Job is not { } job)
        {
            Assert.NotEmpty(reading.Problems);
            Assert.All(reading.Problems, Reading.AssertOneLine);
            return false;
        }

        Assert.Empty(reading.Problems);
        string json = purpose switch
        {
            JobPurpose.Estimate => ResultJson.Write(EstimateResult.Of(job), indented: false),
            JobPurpose.Plan => ResultJson.Write(PlanResult.Of(job), indented: false),
            JobPurpose.SecondPlan => ResultJson.Write(PlanResult.Of(job.NextRound()), indented: false),
            JobPurpose.Next => ResultJson.Write(NextResult.Of(job), indented: false),
            JobPurpose.SecondNext => ResultJson.Write(NextResult.Of(job.NextRound()), indented: false),
            JobPurpose.Forecast => ResultJson.Write(ForecastResult.Of(job), indented: false),
            JobPurpose.Verdict => ResultJson.Write(VerdictResult.Of(job), indented: false),
            JobPurpose.Stops => ResultJson.Write(StopsResult.Of(job), indented: false),
            JobPurpose.Draft => Draft(job, file),
            _ => throw new InvalidOperationException($"{purpose} is a purpose that this test does not know."),
        };
        Assert.DoesNotContain('\n', json);
        return true;
    }

    /// <summary>What a bench makes of a job that it takes in, before it is whole: it can be kept, estimated, and its re-check looked at.</summary>
    private static string Draft(Job job, byte[] file)
    {
        Assert.NotNull(JobSetup.FromFile(file).Setup);
        return ResultJson.Write(EstimateResult.Of(job), indented: false) + ResultJson.Write(VerdictResult.Of(job), indented: false);
    }

    private static string Where(Exception e) =>
        $"{e.GetType().Name} {e.StackTrace?.Split('\n').FirstOrDefault(l => l.Contains("Shimwright", StringComparison.Ordinal))?.Trim()}";
}
