using Shimwright.Cli.Answers;
using Shimwright.Cli.Running;
using Shimwright.Jobs;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Commands;

/// <summary>
/// Many jobs in one process: one a line in, one result a line out, in order. Lines are independent and are worked
/// on by all cores.
/// </summary>
internal static class BatchRun
{
    /// <summary>Lines that are held in memory together.</summary>
    private const int LinesAtOnce = 64;

    public static int Run(Terminal terminal, string file, JobPurpose purpose, Func<Job, IJobAnswer> answer)
    {
        using Stream? stream = Source.Open(terminal, file);
        if (stream is null)
        {
            return ExitCode.BadInput;
        }

        bool anyBad = false;
        BatchProgress.Show(terminal, stream, progress =>
        {
            int done = 0;
            foreach ((string json, bool isBad) in InOrder.Of(
                ByteLines.Of(stream).Index(), LinesAtOnce, line => Answer(line.Item, line.Index + 1, purpose, answer)))
            {
                terminal.Output.WriteLine(json);
                anyBad |= isBad;
                progress(++done);
            }
        });
        return anyBad ? ExitCode.BadInput : ExitCode.Done;
    }

    private static (string Json, bool IsBad) Answer(byte[] line, int number, JobPurpose purpose, Func<Job, IJobAnswer> answer)
    {
        try
        {
            ParsedJob reading = JobFile.Read(line, purpose);
            return reading.Job is { } job
                ? (answer(job).Json(indented: false), false)
                : Bad(number, [.. reading.Problems.Select(Words)]);
        }
        catch (Exception fault) when (fault is not OutOfMemoryException)
        {
            // A fault of the program on this line must not cost the other lines their answers.
            return Bad(number, [$"this should not have happened, please report it with the line: {fault.GetType().Name}: {fault.Message.ReplaceLineEndings(" ")}"]);
        }
    }

    private static (string Json, bool IsBad) Bad(int number, string[] errors) =>
        (ResultJson.Write(new BadLine(number, errors), indented: false), true);

    /// <summary>A problem in words; where a line is no job at all, the likeliest reason is a file that is no batch.</summary>
    private static string Words(JobProblem problem) =>
        problem.Path == "$" ? $"{problem}; a batch has one whole job a line" : problem.ToString();
}
