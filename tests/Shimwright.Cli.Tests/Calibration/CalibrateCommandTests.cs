using System.Globalization;
using System.Text;
using System.Text.Json;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;
using Shimwright.Jobs;

namespace Shimwright.Cli.Tests.Calibration;

public class CalibrateCommandTests
{
    private static readonly string Trials = Demo.At("feel-trials.csv");

    [Theory]
    [InlineData("mm", 120)]
    [InlineData("thou", 80)]
    public void Calibrate_DemoTrials_PrintsWhatWasApproved(string unit, int width)
    {
        ProgramRun run = ProgramRun.With("", width, "calibrate", Trials, "--unit", unit);

        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.All(run.OutputLines, line => Assert.InRange(line.Length, 0, width));
        Approval.Verify(string.Create(CultureInfo.InvariantCulture, $"calibrate-{unit}-{width}"), run.Output);
    }

    [Fact]
    public void Calibrate_Help_PrintsWhatWasApproved() =>
        Approval.Verify("help-calibrate", ProgramRun.Of("calibrate", "--help").Output.Replace(
            Path.GetFileNameWithoutExtension(Environment.GetCommandLineArgs()[0]), "shimwright", StringComparison.Ordinal));

    [Theory]
    [InlineData(80)]
    [InlineData(120)]
    public void Calibrate_SettingsToPaste_AreTakenByAJobFile(int width)
    {
        string output = ProgramRun.With("", width, "calibrate", Trials).Output.ReplaceLineEndings("\n");
        int from = output.IndexOf("\"settings\":", StringComparison.Ordinal);
        string pasted = output[from..(output.IndexOf("\n}", from, StringComparison.Ordinal) + 2)];

        string job = JobFolder.Line();
        ParsedJob reading = JobFile.Read(Encoding.UTF8.GetBytes($"{job[..^1]}, {pasted}}}"), JobPurpose.Plan);

        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        Assert.Equal(-0.0274, reading.Job!.Check.Feel.Firm);
    }

    [Fact]
    public void Calibrate_Json_HasTheMembersAndNumbersOfTheTable()
    {
        ProgramRun run = ProgramRun.Of("calibrate", Trials, "--json", "--unit", "thou");

        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement root = document.RootElement;
        Assert.Equal("shimwright-calibration/1", root.GetProperty("format").GetString());
        Assert.Equal(
            ["format", "trials", "counts", "feel", "blade", "parameters", "logLikelihood", "againstUsual", "tryNext", "cautions"],
            root.EnumerateObject().Select(p => p.Name));
        Assert.Equal(40, root.GetProperty("counts").EnumerateObject().Sum(p => p.Value.GetInt32()));
        Assert.Equal(["firm", "light", "loose", "spread", "slip", "doubt"], root.GetProperty("feel").EnumerateObject().Select(p => p.Name));
        foreach (JsonElement parameter in root.GetProperty("parameters").EnumerateArray())
        {
            double value = parameter.GetProperty("value").GetDouble();
            Assert.InRange(value, parameter.GetProperty("low").GetDouble(), parameter.GetProperty("high").GetDouble());
            Assert.Equal(value, root.GetProperty("feel").GetProperty(parameter.GetProperty("name").GetString()!).GetDouble(), 0.00005 + 1e-9);
        }
    }

    [Fact]
    public void Calibrate_StandardInputWithDecimalCommas_IsTheSame()
    {
        string commas = File.ReadAllText(Trials).Replace(',', ';').Replace('.', ',');

        Assert.Equal(ProgramRun.Of("calibrate", Trials), ProgramRun.With(commas, 120, "calibrate", "-"));
    }

    [Fact]
    public void Calibrate_SlipAndBlade_ChangeTheFit()
    {
        string usual = ProgramRun.Of("calibrate", Trials, "--json").Output;
        Assert.Equal(usual, ProgramRun.Of("calibrate", Trials, "--json", "--slip", "0.02", "--blade", "0.003").Output);
        Assert.NotEqual(usual, ProgramRun.Of("calibrate", Trials, "--json", "--slip", "0.1").Output);
        Assert.NotEqual(usual, ProgramRun.Of("calibrate", Trials, "--json", "--blade", "0").Output);
    }

    [Fact]
    public void Calibrate_BadLines_AreAllNamedOnStandardError()
    {
        ProgramRun run = ProgramRun.With("gap,blade,feel\n0.15,0.15,snug\n15,0.15,light\n", 120, "calibrate", "-", "--json");

        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Output));
        Assert.Equal(
            ["line 2, feel: found \"snug\"; allowed is no, firm, light, loose", "line 3, gap: found \"15\"; allowed is above 0 up to 3 mm; 0.15 meant?"],
            run.ErrorLines);
    }

    [Theory]
    [InlineData(5, "found 4 trials; a calibration needs 12 at least and is worth having from 40; try next the ")]
    [InlineData(1, "found 0 trials; a calibration needs 12 at least")]
    public void Calibrate_TooFewTrials_SaysWhatToTryNext(int lines, string words)
    {
        string text = string.Join('\n', File.ReadLines(Trials).Take(lines));
        ProgramRun run = ProgramRun.With(text, 120, "calibrate", "-");

        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Output));
        Assert.StartsWith(words, Assert.Single(run.ErrorLines), StringComparison.Ordinal);
    }

    [Fact]
    public void Calibrate_FeelThatNeverCame_IsNamed()
    {
        string text = string.Join('\n', File.ReadLines(Trials).Where(l => !l.EndsWith("loose", StringComparison.Ordinal)));
        ProgramRun run = ProgramRun.With(text, 120, "calibrate", "-");

        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.StartsWith("no trial felt \"loose\"; each of the four feels is needed; try next the ", Assert.Single(run.ErrorLines), StringComparison.Ordinal);
    }

    [Fact]
    public void Calibrate_GapAndBladeSwapped_AsksForIt()
    {
        string text = "gap,blade,feel\n" + string.Join('\n', File.ReadLines(Trials).Skip(1).Select(l => l.Split(',')).Select(f => $"{f[1]},{f[0]},{f[3]}"));
        ProgramRun run = ProgramRun.With(text, 120, "calibrate", "-");

        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.Contains("the wrong way round?", Assert.Single(run.ErrorLines), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("calibrate", "'TRIALS' missing")]
    [InlineData("calibrate - --slip 0.9", "--slip: found \"0.9\", allowed is a number from 0 to 0.5.")]
    [InlineData("calibrate - --blade x", "--blade: found \"x\"")]
    [InlineData("calibrate - --unit yd", "--unit: found \"yd\"")]
    public void Calibrate_WrongCommandLine_IsExitTwo(string line, string words)
    {
        ProgramRun run = ProgramRun.With("", 120, line.Split(' '));

        Assert.Equal((ExitCode.BadCommandLine, ""), (run.Exit, run.Output));
        Assert.Contains(words, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Calibrate_FileThatIsNotThere_SaysSo() =>
        Assert.Equal(ExitCode.BadInput, ProgramRun.Of("calibrate", "no-such.csv").Exit);
}
