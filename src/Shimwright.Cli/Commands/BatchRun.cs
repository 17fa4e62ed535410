using System.Globalization;
using System.Text;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Commands;

/// <summary>
/// Many jobs in one process: one a line in, one result a line out, in order. Lines are independent and are worked
/// on by all cores; only as many as are under way are held in memory.
/// </summary>
internal static class BatchRun
{
    private const int ProgressEvery = 100;

    public static int Run(Bench bench, string file, JobPurpose purpose, Func<Job, IJobAnswer> answer)
    {
        using Stream? stream = Source.Open(bench, file);
        if (stream is null)
        {
            return ExitCode.BadInput;
        }

        using var reader = new StreamReader(stream, new UTF8Encoding(false));
        IEnumerable<(string Json, bool IsBad)> results = Lines(reader)
            .AsParallel().AsOrdered().WithMergeOptions(ParallelMergeOptions.NotBuffered)
            .Select(line => Answer(line.Text, line.Number, purpose, answer));
        int done = 0;
        bool anyBad = false;
        foreach ((string json, bool isBad) in results)
        {
            bench.Output.WriteLine(json);
            anyBad |= isBad;
            if (++done % ProgressEvery == 0 && bench.ErrorIsTerminal && !bench.OutputIsTerminal)
            {
                bench.Error.Write(string.Create(CultureInfo.InvariantCulture, $"\r{done} jobs done"));
            }
        }

        if (done >= ProgressEvery && bench.ErrorIsTerminal && !bench.OutputIsTerminal)
        {
            bench.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"\r{done} jobs done"));
        }

        return anyBad ? ExitCode.BadInput : ExitCode.Done;
    }

    private static IEnumerable<(string Text, int Number)> Lines(TextReader reader)
    {
        int number = 0;
        while (reader.ReadLine() is { } text)
        {
            yield return (text, ++number);
        }
    }

    private static (string Json, bool IsBad) Answer(string line, int number, JobPurpose purpose, Func<Job, IJobAnswer> answer)
    {
        JobReading reading = JobFile.Read(Encoding.UTF8.GetBytes(line), purpose);
        return reading.Job is { } job
            ? (answer(job).Json(indented: false), false)
            : (ResultJson.Write(new BadLine(number, [.. reading.Problems.Select(p => p.ToString())]), indented: false), true);
    }
}
