using System.Globalization;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Answers;

public class ApprovedOutputTests
{
    [Theory]
    [InlineData("plan", "01-flood-pump", "mm", 120)]
    [InlineData("plan", "01-flood-pump", "thou", 80)]
    [InlineData("plan", "02-worn-four", "mm", 120)]
    [InlineData("plan", "06-plant-engine-screws", "mm", 80)]
    [InlineData("plan", "06-plant-engine-screws", "in", 120)]
    [InlineData("plan", "07-stranded-valve", "mm", 80)]
    [InlineData("plan", "07-stranded-valve", "thou", 120)]
    [InlineData("plan", "08-in-thou", "thou", 120)]
    [InlineData("estimate", "01-flood-pump", "mm", 80)]
    [InlineData("estimate", "04-shim-over-bucket-twin", "thou", 120)]
    [InlineData("estimate", "07-stranded-valve", "in", 80)]
    [InlineData("estimate", "10-by-depth", "mm", 120)]
    [InlineData("estimate", "10-by-depth", "thou", 80)]
    [InlineData("verdict", "01-flood-pump", "mm", 120)]
    [InlineData("verdict", "01-flood-pump", "thou", 80)]
    [InlineData("next", "07-stranded-valve", "mm", 80)]
    [InlineData("next", "01-flood-pump", "mm", 120)]
    [InlineData("next", "03-leave-alone", "thou", 80)]
    [InlineData("forecast", "09-third-check", "mm", 120)]
    [InlineData("forecast", "09-third-check", "thou", 80)]
    [InlineData("plan", "09-third-check", "mm", 120)]
    public void Run_DemoJob_PrintsWhatWasApproved(string command, string job, string unit, int width)
    {
        ProgramRun run = ProgramRun.With("", width, command, Demo.At(job + ".json"), "--unit", unit);
        Assert.Equal("", run.Error);
        Approval.Verify(string.Create(CultureInfo.InvariantCulture, $"{command}-{job}-{unit}-{width}"), run.Output);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(80)]
    [InlineData(120)]
    [InlineData(200)]
    public void Run_AnyWidth_HasNoLineBeyondIt(int width)
    {
        foreach (string file in Demo.Files)
        {
            foreach (string command in new[] { "plan", "estimate" })
            {
                ProgramRun run = ProgramRun.With("", width, command, file);
                Assert.All(run.OutputLines, line => Assert.InRange(line.Length, 0, width));
            }
        }
    }

    [Fact]
    public void Run_OutputToAFile_HasNoTerminalCodes() =>
        Assert.DoesNotContain('\u001b', ProgramRun.Of("plan", Demo.At(Demo.Stranded)).Output);

    [Fact]
    public void Run_NameWithMarkup_IsPrintedAsItStands()
    {
        using var folder = new JobFolder();
        string file = folder.Write("job.json", JobFolder.Line("[red]I1[/]").Replace("Loaner", "[bold]Loaner[/] {0}", StringComparison.Ordinal));
        ProgramRun run = ProgramRun.Of("plan", file);
        Assert.Equal(ExitCode.Done, run.Exit);
        Assert.Contains("[bold]Loaner[/] {0}", run.Output, StringComparison.Ordinal);
        Assert.Contains("[red]I1[/]", run.Output, StringComparison.Ordinal);
    }
}
