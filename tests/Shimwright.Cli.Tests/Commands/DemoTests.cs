using Shimwright.Cli.Commands;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class DemoTests
{
    [Theory]
    [InlineData("mm")]
    [InlineData("thou")]
    public void Demo_PlansEveryFileOfItsFolderInOrder(string unit)
    {
        ProgramRun run = ProgramRun.Of("demo", "--once", "--unit", unit);
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.Equal(
            Demo.Files.Select(f => "demo/" + Path.GetFileName(f)),
            run.OutputLines.Where(l => l.StartsWith('─') || l.StartsWith('-')).Select(l => l.Trim('─', '-', ' ')).Where(l => l.StartsWith("demo/", StringComparison.Ordinal)));
        Assert.Equal(Demo.Files.Count, run.OutputLines.Count(l => l.StartsWith("Look at: ", StringComparison.Ordinal)));
        Assert.Equal(Demo.Files.Count, run.OutputLines.Count(l => l.StartsWith("Plan for ", StringComparison.Ordinal) && l.EndsWith($" ({unit}, at 20 degrees C)", StringComparison.Ordinal)));
    }

    [Fact]
    public void Demo_Stops_AreTheFilesOfTheFolder() =>
        Assert.Equal(Demo.Files.Select(Path.GetFileName), DemoTour.Stops.Select(s => s.File));
}
