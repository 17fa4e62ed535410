using Shimwright.Jobs;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Fuzz;

namespace Shimwright.Fuzz;

/// <summary>Spoilt job files, read and answered as the commands do.</summary>
internal sealed class SpoiltJobs(int seed)
{
    private static readonly (JobPurpose Purpose, Action<Job> Answer)[] Answers =
    [
        (JobPurpose.Estimate, j => ResultJson.Write(EstimateResult.Of(j), indented: false)),
        (JobPurpose.Plan, j => ResultJson.Write(PlanResult.WithFirst(j), indented: false)),
        (JobPurpose.Next, j => ResultJson.Write(NextResult.Of(j), indented: false)),
        (JobPurpose.Verdict, j => ResultJson.Write(VerdictResult.Of(j), indented: false)),
        (JobPurpose.Stops, j => ResultJson.Write(StopsResult.Of(j), indented: false)),
        (JobPurpose.Forecast, j => ResultJson.Write(ForecastResult.Of(j), indented: false)),
    ];

    private readonly JobMutator _mutator = new(seed);
    private readonly Random _random = new(seed);

    /// <summary>Every answer to a file.</summary>
    public static void Answer(byte[] file)
    {
        foreach ((JobPurpose purpose, Action<Job> answer) in Answers)
        {
            if (JobFile.Read(file, purpose).Job is { } job)
            {
                answer(job);
            }
        }
    }

    public SpoiltInput Next()
    {
        (JobPurpose purpose, Action<Job> answer) = Answers[_random.Next(Answers.Length)];
        return SpoiltInput.Of(purpose.ToString(), _mutator.Spoil(Demos.Jobs[_random.Next(Demos.Jobs.Count)]), bytes =>
        {
            if (JobFile.Read(bytes, purpose).Job is { } job)
            {
                answer(job);
            }
        });
    }
}
