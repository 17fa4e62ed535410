using System.Text.Json;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Stops;

public class TimingCommandTests
{
    [Fact]
    public void Timing_TeethAlone_SaysWhatAToothIs()
    {
        ProgramRun run = Run("--teeth 40");
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.Equal("Cam timing", run.OutputLines[0]);
        Assert.Contains("One tooth is 9.00 camshaft degrees, 18.00 crank degrees.", run.Output, StringComparison.Ordinal);
        Assert.Contains("by hand only until the marks are right", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--offset 4.2 --radius 30", "Mark: 7.97 camshaft degrees off. Wrong: the camshaft is 1 tooth advanced,")]
    [InlineData("--offset -4.2 --radius 30", "Mark: -7.97 camshaft degrees off. Wrong: the camshaft is 1 tooth retarded,")]
    [InlineData("--offset=-4.2 --radius=30", "Mark: -7.97 camshaft degrees off.")]
    [InlineData("--radius 30 --offset 0", "Mark: 0.00 camshaft degrees off. Right: the camshaft is where it belongs,")]
    [InlineData("--pins 13 --pins-right 14", "Pins: 13 counted, 14 right. Wrong: the second camshaft is 1 tooth retarded against the first.")]
    [InlineData("--intake -15 35", "Intake: open for 200 crank degrees, lobe centre 115 after top dead centre.")]
    [InlineData("--exhaust 40 10", "Exhaust: open for 230 crank degrees, lobe centre 105 before top dead centre.")]
    [InlineData("--intake -15 35 --exhaust 40 10", "Overlap: none, both are closed for 5 crank degrees; separation of the lobes 110 camshaft degrees.")]
    [InlineData("--exhaust 60 20 --intake 20 60", "Overlap: 40 crank degrees; separation of the lobes 110 camshaft degrees.")]
    [InlineData("--intake 10 50 --clearance-change 0.05 --ramp-speed 0.02", "After the change of clearance the intake opens at 7.5 and closes at 47.5: open for 235.")]
    [InlineData("--exhaust 50 10 --clearance-change -0.05 --ramp-speed 0.02", "After the change of clearance the exhaust opens at 52.5 and closes at 12.5: open for 245.")]
    public void Timing_Measured_IsAnswered(string args, string words)
    {
        ProgramRun run = ProgramRun.With("", 200, ["timing", "--teeth", "40", .. args.Split(' ')]);
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.Contains(words, run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Timing_Json_IsOneDocument()
    {
        ProgramRun run = Run("--teeth 34 --offset -4.2 --radius 30 --pins 15 --pins-right 14 --intake -15 35 --exhaust 40 10 --clearance-change 0.05 --ramp-speed 0.01 --json");
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        using JsonDocument answer = JsonDocument.Parse(run.Output);
        JsonElement root = answer.RootElement;
        Assert.Equal("shimwright-timing/1", root.GetProperty("format").GetString());
        Assert.Equal(10.588235, root.GetProperty("tooth").GetProperty("camDegrees").GetDouble());
        Assert.Equal(-1, root.GetProperty("mark").GetProperty("teeth").GetInt32());
        Assert.Equal(1, root.GetProperty("pins").GetProperty("teethAdvanced").GetInt32());
        Assert.Equal(-5, root.GetProperty("lobes").GetProperty("overlap").GetDouble());
        Assert.Equal([-20, 35], root.GetProperty("afterClearanceChange").EnumerateArray().Select(e => e.GetProperty("opens").GetDouble()));
    }

    [Fact]
    public void Timing_Json_IsTheSameInEveryOrderOfOptions() => Assert.Equal(
        Run("--json --intake 10 50 --teeth 40 --radius 30 --offset 1"), Run("--offset 1 --radius 30 --teeth 40 --intake 10 50 --json"));

    [Theory]
    [InlineData("", "'--teeth' is required")]
    [InlineData("--offset 3 --radius 30", "'--teeth' is required")]
    [InlineData("--teeth", "--teeth")]
    [InlineData("--teeth 40.5", "--teeth: found \"40.5\", allowed is a whole number from 8 to 400.")]
    [InlineData("--teeth 7", "--teeth: found \"7\", allowed is a whole number from 8 to 400.")]
    [InlineData("--teeth forty", "--teeth: found \"forty\"")]
    [InlineData("--teeth NaN", "--teeth: found \"NaN\"")]
    [InlineData("--teeth 40 --teeth 42", "--teeth")]
    [InlineData("--teeth 40 41", "41")]
    [InlineData("--teeth 40 --offset 3", "--offset and --radius belong together.")]
    [InlineData("--teeth 40 --radius 30", "--offset and --radius belong together.")]
    [InlineData("--teeth 40 --pins 14", "--pins and --pins-right belong together.")]
    [InlineData("--teeth 40 --pins-right 14", "--pins and --pins-right belong together.")]
    [InlineData("--teeth 40 --pins 14.5 --pins-right 14", "--pins: found \"14.5\", allowed is a whole number from 0 to 1000.")]
    [InlineData("--teeth 40 --pins -1 --pins-right 14", "--pins: found \"-1\"")]
    [InlineData("--teeth 40 --offset 4,2 --radius 30", "--offset: found \"4,2\", allowed is a number from -500 to 500.")]
    [InlineData("--teeth 40 --offset 500 --radius 1", "--offset: found 500 at a --radius of 1, allowed is up to 10 times the radius; are the two swapped?")]
    [InlineData("--teeth 40 --intake 20", "--intake")]
    [InlineData("--teeth 40 --intake 20 60 80", "80")]
    [InlineData("--teeth 40 --intake 20 x", "--intake: found \"20 x\", allowed are two numbers from -180 to 180 that leave the valve open for a while.")]
    [InlineData("--teeth 40 --exhaust -100 -80", "--exhaust: found \"-100 -80\", allowed are two numbers from -180 to 180 that leave the valve open for a while.")]
    [InlineData("--teeth 40 --clearance-change 0.05 --intake 10 50", "--clearance-change and --ramp-speed belong together.")]
    [InlineData("--teeth 40 --clearance-change 0.05 --ramp-speed 0.01", "--clearance-change needs --intake or --exhaust: it says what becomes of their events.")]
    [InlineData("--teeth 40 --clearance-change 0.05 --ramp-speed 0 --intake 10 50", "--ramp-speed: found \"0\", allowed is a number from 0.000001 to 1.")]
    [InlineData("--teeth 40 --clearance-change 2 --ramp-speed 0.001 --intake 10 50", "--clearance-change: found 2 at a --ramp-speed of 0.001, which moves the events by 2000 degrees; no valve train does that.")]
    [InlineData("--teeth 40 --unit thou", "--unit")]
    public void Timing_WrongCommandLine_IsExitCodeTwoAndSaysWhy(string args, string words)
    {
        ProgramRun run = Run(args);
        Assert.Equal((ExitCode.BadCommandLine, ""), (run.Exit, run.Output));
        Assert.Contains(run.ErrorLines, l => l.Contains(words, StringComparison.Ordinal));
        Assert.All(run.ErrorLines, l => Assert.StartsWith("shimwright: ", l, StringComparison.Ordinal));
        Assert.StartsWith("shimwright: see 'shimwright", run.ErrorLines[^1], StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Timing_SeveralFaults_AreAllNamedAtOnce()
    {
        ProgramRun run = Run("--teeth x --offset y --radius z --pins 3");
        Assert.Equal(ExitCode.BadCommandLine, run.Exit);
        foreach (string words in new[] { "--teeth: found \"x\"", "--offset: found \"y\"", "--radius: found \"z\"", "--pins and --pins-right belong together." })
        {
            Assert.Contains(words, run.Error, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Timing_Help_HasAnExampleThatRuns()
    {
        string example = Assert.Single(Run("--help").OutputLines, l => l.Contains("Example: shimwright timing ", StringComparison.Ordinal));
        Assert.Equal(ExitCode.Done, ProgramRun.Of([.. example.Split("shimwright ")[1].Split(' ')]).Exit);
    }

    private static ProgramRun Run(string args) =>
        ProgramRun.Of(["timing", .. args.Split(' ', StringSplitOptions.RemoveEmptyEntries)]);
}
