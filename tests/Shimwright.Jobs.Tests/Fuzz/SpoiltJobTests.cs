using System.Globalization;
using System.Text;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Fuzz;

/// <summary>At least five thousand spoilt job files: each is answered or refused in words, and nothing is thrown.</summary>
public class SpoiltJobTests
{
    private const int FilesPerDemo = 625;

    public static TheoryData<string> Demos() => [.. Demo.Files];

    [Fact]
    public void Demos_TimesFilesPerDemo_AreFiveThousandAtLeast() => Assert.InRange(Demo.Files.Count * FilesPerDemo, 5000, int.MaxValue);

    [Theory]
    [MemberData(nameof(Demos))]
    public void ReadAndAnswer_SpoiltJobs_NeverThrow(string demo)
    {
        string text = Demo.WithRecheck(demo);
        int first = Demo.Files.ToList().IndexOf(demo) * FilesPerDemo;
        int answered = 0;
        int refused = 0;
        Dictionary<string, string> thrown = [];
        for (int seed = first; seed < first + FilesPerDemo; seed++)
        {
            byte[] file = new JobMutator(seed).Spoil(text);
            foreach (JobPurpose purpose in Enum.GetValues<JobPurpose>())
            {
                try
                {
                    if (Answer(file, purpose))
                    {
                        answered++;
                    }
                    else
                    {
                        refused++;
                    }
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
        Assert.True(answered > FilesPerDemo / 4, $"only {answered} answers: the mutations are too harsh to test anything but the reader");
        Assert.True(refused > FilesPerDemo / 2, $"only {refused} refusals: the mutations are too mild");
    }

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
            JobPurpose.Forecast => ResultJson.Write(ForecastResult.Of(job), indented: false),
            _ => ResultJson.Write(VerdictResult.Of(job), indented: false),
        };
        Assert.DoesNotContain('\n', json);
        return true;
    }

    private static string Where(Exception e) =>
        $"{e.GetType().Name} {e.StackTrace?.Split('\n').FirstOrDefault(l => l.Contains("Shimwright", StringComparison.Ordinal))?.Trim()}";
}
