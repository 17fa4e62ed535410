using System.Text.Json;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;
using Shimwright.Jobs;

namespace Shimwright.Cli.Tests.Commands;

public class HelpTests
{
    [Theory]
    [InlineData("estimate")]
    [InlineData("plan")]
    [InlineData("verdict")]
    [InlineData("forecast")]
    [InlineData("schema")]
    [InlineData("demo")]
    [InlineData("calibrate")]
    public void Help_OfACommand_HasAnExampleThatRuns(string command)
    {
        ProgramRun help = ProgramRun.Of(command, "--help");
        Assert.Equal((ExitCode.Done, ""), (help.Exit, help.Error));
        string example = Assert.Single(help.OutputLines, line => line.Contains("Example: shimwright ", StringComparison.Ordinal)).Split("shimwright ", 2)[1];
        string[] args = [.. example.Split(" > ")[0].Split(' ').Select(a => a.StartsWith("demo/", StringComparison.Ordinal) ? Demo.At(a[5..]) : a)];
        Assert.Equal(command, args[0]);
        ProgramRun run = ProgramRun.Of(args);
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
    }

    [Theory]
    [InlineData("root")]
    [InlineData("estimate")]
    [InlineData("plan")]
    [InlineData("verdict")]
    [InlineData("forecast")]
    [InlineData("schema")]
    [InlineData("demo")]
    [InlineData("serve")]
    [InlineData("ready")]
    [InlineData("pocket")]
    [InlineData("backup")]
    [InlineData("restore")]
    [InlineData("check")]
    [InlineData("export")]
    [InlineData("import")]
    [InlineData("calibrate")]
    public void Help_PrintsWhatWasApproved(string command)
    {
        ProgramRun help = ProgramRun.Of(command == "root" ? ["--help"] : [command, "--help"]);
        Assert.Equal((ExitCode.Done, ""), (help.Exit, help.Error));
        Approval.Verify("help-" + command, help.Output.Replace(ProgramName(), "shimwright", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("-h")]
    [InlineData("-?")]
    public void Help_ShortOption_IsTheSame(string option) => Assert.Equal(ProgramRun.Of("--help"), ProgramRun.Of(option));

    [Fact]
    public void Version_IsPrintedAlone()
    {
        ProgramRun run = ProgramRun.Of("--version");
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.Matches("^[0-9]+\\.[0-9]+\\.[0-9]+$", Assert.Single(run.OutputLines));
    }

    [Fact]
    public void Schema_IsThatOfTheJobFileAndNothingElse()
    {
        ProgramRun run = ProgramRun.Of("schema");
        Assert.Equal((ExitCode.Done, JobFile.Schema(), ""), (run.Exit, run.Output, run.Error));
        using JsonDocument schema = JsonDocument.Parse(run.Output);
        Assert.Equal("object", schema.RootElement.GetProperty("type").GetString());
    }

    /// <summary>The usage line names the program that runs, which here is the test program.</summary>
    private static string ProgramName() => Path.GetFileNameWithoutExtension(Environment.GetCommandLineArgs()[0]);
}
