using System.Globalization;
using System.Text.Json;
using Shimwright.Cli.Commands;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class BatchTests
{
    [Theory]
    [InlineData("estimate")]
    [InlineData("plan")]
    public void Batch_OneHundredAndFiftyJobs_AreAnsweredInOrder(string command)
    {
        string[] jobs = [.. Enumerable.Range(1, 150).Select(i => JobFolder.Line(Name(i), 0.05 + (0.001 * i)))];
        ProgramRun run = ProgramRun.With(string.Join('\n', jobs), 120, command, "--batch", "-");
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.Equal(Enumerable.Range(1, 150).Select(Name), run.OutputLines.Select(Valve));
    }

    [Fact]
    public void Batch_FromAFile_IsTheSameAsFromStandardInput()
    {
        using var folder = new JobFolder();
        string text = $"{JobFolder.Line("A")}\n{JobFolder.Line("B", 0.05)}\n";
        string file = folder.Write("jobs.jsonl", text);
        ProgramRun run = ProgramRun.Of("plan", "--batch", file);
        Assert.Equal(2, run.OutputLines.Length);
        Assert.Equal(ProgramRun.With(text, 120, "plan", "--batch", "-"), run);
    }

    [Fact]
    public void Batch_BadLines_AreAnsweredInTheirPlacesAndTheOthersStillRun()
    {
        string bad = JobFolder.Line("B").Replace("\"clock\": 10", "\"clock\": -1, \"surplus\": 2", StringComparison.Ordinal);
        ProgramRun run = ProgramRun.With($"{JobFolder.Line("A")}\n{bad}\n{JobFolder.Line("C")}\n{{\n{JobFolder.Line("E")}\n", 120, "plan", "--batch", "-");
        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Error));
        Assert.Equal(5, run.OutputLines.Length);
        Assert.Equal(["A", "C", "E"], new[] { 0, 2, 4 }.Select(i => Valve(run.OutputLines[i])));
        string[] errors = Errors(run.OutputLines[1], 2);
        Assert.Equal(2, errors.Length);
        Assert.StartsWith("$.check.clock: found -1; ", errors[0], StringComparison.Ordinal);
        Assert.StartsWith("$.check.surplus: unknown member; ", errors[1], StringComparison.Ordinal);
        Assert.StartsWith("$: not JSON: line 1, column 2: ", Assert.Single(Errors(run.OutputLines[3], 4)), StringComparison.Ordinal);
    }

    [Fact]
    public void Batch_BlankLine_IsABadLine()
    {
        ProgramRun run = ProgramRun.With($"{JobFolder.Line("A")}\n\n{JobFolder.Line("C")}\n", 120, "estimate", "--batch", "-");
        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.Equal(3, run.OutputLines.Length);
        Assert.NotEmpty(Errors(run.OutputLines[1], 2));
        Assert.Equal("C", Valve(run.OutputLines[2]));
    }

    [Fact]
    public void Batch_WindowsLineEndsAndByteOrderMark_AreTaken()
    {
        ProgramRun run = ProgramRun.With($"\uFEFF{JobFolder.Line("A")}\r\n{JobFolder.Line("B")}\r\n", 120, "plan", "--batch", "-");
        Assert.Equal(ExitCode.Done, run.Exit);
        Assert.Equal(["A", "B"], run.OutputLines.Select(Valve));
    }

    [Fact]
    public void Batch_Empty_HasNoResults() =>
        Assert.Equal(new ProgramRun(ExitCode.Done, "", ""), ProgramRun.With("", 120, "plan", "--batch", "-"));

    [Fact]
    public void Batch_StrandedValve_IsAnAnswer()
    {
        ProgramRun run = ProgramRun.With(JobFolder.Line(value: -0.1) + "\n", 120, "plan", "--batch", "-");
        Assert.Equal(ExitCode.Done, run.Exit);
        using JsonDocument result = JsonDocument.Parse(Assert.Single(run.OutputLines));
        Assert.Equal(1, result.RootElement.GetProperty("stranded").GetArrayLength());
    }

    [Fact]
    public void Batch_Line_SaysWhatTheSingleJobSays()
    {
        using var folder = new JobFolder();
        foreach (string file in Demo.Files)
        {
            string job = File.ReadAllText(file).ReplaceLineEndings(" ");
            using JsonDocument one = JsonDocument.Parse(ProgramRun.Of("plan", file, "--json").Output);
            using JsonDocument many = JsonDocument.Parse(Assert.Single(ProgramRun.With(job, 120, "plan", "--batch", "-").OutputLines));
            Assert.True(JsonElement.DeepEquals(one.RootElement, many.RootElement), file);
        }
    }

    [Fact]
    public void Batch_Verdicts_AreAnsweredToo()
    {
        string job = File.ReadAllText(Demo.At(Demo.WithRecheck)).ReplaceLineEndings(" ");
        ProgramRun run = ProgramRun.With($"{job}\n{JobFolder.Line()}\n", 120, "verdict", "--batch", "-");
        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.Contains("\"shimwright-verdict/1\"", run.OutputLines[0], StringComparison.Ordinal);
        Assert.StartsWith("$.recheck: missing", Assert.Single(Errors(run.OutputLines[1], 2)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, false, true)]
    [InlineData(true, true, false)]
    [InlineData(false, false, false)]
    public void Batch_Progress_IsDrawnOnATerminalWhileTheAnswersGoElsewhere(bool errorIsTerminal, bool outputIsTerminal, bool isDrawn)
    {
        using var folder = new JobFolder();
        string file = folder.Write("jobs.jsonl", string.Join('\n', Enumerable.Repeat(JobFolder.Line(), 130)));
        using var output = new StringWriter();
        using var error = new StringWriter();
        var terminal = new Terminal(Stream.Null, output, error, outputIsTerminal, errorIsTerminal, 80);
        Assert.Equal(ExitCode.Done, CommandLine.Run(["estimate", "--batch", file], terminal));
        Assert.Equal(130, output.ToString().TrimEnd().Split('\n').Length);
        Assert.Equal(isDrawn, error.ToString().Contains("130 jobs done", StringComparison.Ordinal));
        Assert.Equal(isDrawn, error.ToString().Contains("100%", StringComparison.Ordinal));
    }

    private static string Name(int i) => string.Create(CultureInfo.InvariantCulture, $"V{i}");

    private static string Valve(string line)
    {
        using JsonDocument result = JsonDocument.Parse(line);
        return result.RootElement.GetProperty("valves")[0].GetProperty("valve").GetString()!;
    }

    private static string[] Errors(string line, int number)
    {
        using JsonDocument result = JsonDocument.Parse(line);
        Assert.Equal(["line", "errors"], result.RootElement.EnumerateObject().Select(p => p.Name));
        Assert.Equal(number, result.RootElement.GetProperty("line").GetInt32());
        return [.. result.RootElement.GetProperty("errors").EnumerateArray().Select(e => e.GetString()!)];
    }
}
