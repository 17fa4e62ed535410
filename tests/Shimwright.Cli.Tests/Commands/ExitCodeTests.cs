using System.Text.Json;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class ExitCodeTests
{
    [Theory]
    [InlineData("estimate", Demo.Plain, ExitCode.Done)]
    [InlineData("plan", Demo.Plain, ExitCode.Done)]
    [InlineData("verdict", Demo.WithRecheck, ExitCode.Done)]
    [InlineData("estimate", Demo.Stranded, ExitCode.Done)]
    [InlineData("plan", Demo.Stranded, ExitCode.Stranded)]
    public void Run_GoodJob_PrintsAnAnswerAndNoError(string command, string file, int exit)
    {
        foreach (string[] more in new string[][] { [], ["--json"], ["--unit", "thou"] })
        {
            ProgramRun run = ProgramRun.Of([command, Demo.At(file), .. more]);
            Assert.Equal(exit, run.Exit);
            Assert.NotEmpty(run.OutputLines);
            Assert.Equal("", run.Error);
        }
    }

    [Fact]
    public void ExitCodes_AreThoseOfTheHelp() =>
        Assert.Equal([0, 1, 2, 3], new[] { ExitCode.Done, ExitCode.BadInput, ExitCode.BadCommandLine, ExitCode.Stranded });

    /// <summary>What was fitted is what a second plan finds in the engine; a batch gives the same answer.</summary>
    [Fact]
    public void Plan_Second_PlansFromTheRecheck()
    {
        ProgramRun run = ProgramRun.Of("plan", "--second", Demo.At(Demo.WithRecheck), "--json");
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        using JsonDocument plan = JsonDocument.Parse(run.Output);
        using JsonDocument file = JsonDocument.Parse(File.ReadAllText(Demo.At(Demo.WithRecheck)));
        Dictionary<string, double> fitted = plan.RootElement.GetProperty("valves").EnumerateArray()
            .ToDictionary(v => v.GetProperty("valve").GetString()!, v => v.GetProperty("from").GetProperty("thickness").GetDouble());
        JsonElement[] changed = [.. file.RootElement.GetProperty("recheck").GetProperty("changed").EnumerateArray()];
        Assert.NotEmpty(changed);
        Assert.All(changed, c => Assert.Equal(c.GetProperty("to").GetProperty("thickness").GetDouble(), fitted[c.GetProperty("valve").GetString()!]));
        ProgramRun batch = ProgramRun.With(JsonSerializer.Serialize(file), 120, "plan", "--second", "--batch", "-");
        Assert.Equal(ExitCode.Done, batch.Exit);
        using JsonDocument ofBatch = JsonDocument.Parse(Assert.Single(batch.OutputLines));
        Assert.Equal(JsonSerializer.Serialize(plan), JsonSerializer.Serialize(ofBatch));
    }

    [Fact]
    public void Plan_SecondWithoutARecheck_SaysWhatIsMissing()
    {
        ProgramRun run = ProgramRun.Of("plan", "--second", Demo.At(Demo.Plain));
        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Output));
        Assert.Equal("$.recheck: missing; a second plan needs what was changed and read at the re-check", Assert.Single(run.ErrorLines));
        Assert.Equal(ExitCode.BadCommandLine, ProgramRun.Of("verdict", "--second", Demo.At(Demo.WithRecheck)).Exit);
    }

    [Fact]
    public void Plan_StrandedValve_IsNamedAndTheRestIsPlanned()
    {
        ProgramRun run = ProgramRun.Of("plan", Demo.At(Demo.Stranded));
        Assert.Contains("STRANDED I1: ", run.Output, StringComparison.Ordinal);
        Assert.Contains(" fit ", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("estimate")]
    [InlineData("plan")]
    [InlineData("verdict")]
    public void Run_JobWithSeveralProblems_PrintsOneALineAndNothingElse(string command)
    {
        using var folder = new JobFolder();
        string file = folder.Write("job.json", JobFolder.Line(value: 9, thickness: 262).Replace("\"clock\": 10", "\"clock\": -1, \"surplus\": 0", StringComparison.Ordinal));
        ProgramRun run = ProgramRun.Of(command, file);
        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.Equal("", run.Output);
        string[] wrong = ["$.check.clock: ", "$.check.readings[0].value: ", "$.check.fitted[0].thickness: ", "$.check.surplus: "];
        Assert.Equal(command == "verdict" ? [.. wrong, "$.recheck: "] : wrong, run.ErrorLines.Select(l => l[..(l.IndexOf(": ", StringComparison.Ordinal) + 2)]));
    }

    [Fact]
    public void Run_BadJobWithJson_PrintsNothingOnTheOutput()
    {
        ProgramRun run = ProgramRun.With("{", 120, "plan", "-", "--json");
        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Output));
        Assert.Single(run.ErrorLines);
    }
}
