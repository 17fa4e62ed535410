using System.Globalization;
using System.Text;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;

namespace Shimwright.Fuzz;

/// <summary>Looks for the valid job whose plan takes longest: draws some over all limits, then changes the worst of them one thing at a time.</summary>
internal static class WorstJob
{
    /// <summary>Of the time, the share that is spent on drawing.</summary>
    private const double Drawing = 0.4;

    public static int Search(int seed, int seconds)
    {
        var random = new Random(seed);
        TimeProvider time = TimeProvider.System;
        long start = time.GetTimestamp();
        (WorstShape Shape, Measured Taken)? worst = null;
        long mostMemory = 0;
        int jobs = 0;
        while (time.GetElapsedTime(start).TotalSeconds < seconds)
        {
            bool draws = worst is null || time.GetElapsedTime(start).TotalSeconds < Drawing * seconds;
            WorstShape shape = draws ? WorstShape.Draw(random) : worst!.Value.Shape.Changed(random);
            if (Take(shape) is not { } taken)
            {
                continue;
            }

            jobs++;
            mostMemory = Math.Max(mostMemory, taken.PeakBytes);
            if (worst is null || taken.Processor > worst.Value.Taken.Processor)
            {
                worst = (shape, taken);
                Say($"{taken.Processor.TotalSeconds:0.00} s, {taken.PeakBytes / 1e6:0} MB: {shape}");
            }
        }

        File.WriteAllText("worst-job.json", worst!.Value.Shape.ToJson().ToJsonString());
        Say($"{jobs} jobs, seed {seed}: the worst plan took {worst.Value.Taken.Processor.TotalSeconds:0.00} s of processor time; the most memory was {mostMemory / 1e6:0} MB. See worst-job.json.");
        return 0;
    }

    /// <summary>What a plan of it takes; null where it is no valid job.</summary>
    private static Measured? Take(WorstShape shape)
    {
        byte[] file = Encoding.UTF8.GetBytes(shape.ToJson().ToJsonString());
        bool isValid = true;
        GC.Collect();
        Measured taken = Measured.Of(() =>
        {
            ParsedJob read = JobFile.Read(file, JobPurpose.Plan);
            isValid = read.Job is not null;
            if (read.Job is { } job)
            {
                ResultJson.Write(PlanResult.WithFirst(job), indented: false);
            }
            else
            {
                Console.Error.WriteLine(read.Problems[0]);
            }
        });
        return isValid ? taken : null;
    }

    private static void Say(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}
