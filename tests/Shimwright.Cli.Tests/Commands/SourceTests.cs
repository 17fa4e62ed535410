using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class SourceTests
{
    [Theory]
    [InlineData("estimate")]
    [InlineData("plan")]
    [InlineData("verdict")]
    public void Run_FileThatIsNotThere_SaysSo(string command) => AssertCannotRead([command, "no-such-job.json"], "no-such-job.json");

    [Theory]
    [InlineData("estimate")]
    [InlineData("plan")]
    [InlineData("verdict")]
    public void Run_BatchThatIsNotThere_SaysSo(string command) => AssertCannotRead([command, "--batch", "no-such-jobs.jsonl"], "no-such-jobs.jsonl");

    [Theory]
    [InlineData("")]
    [InlineData("--batch")]
    public void Run_FolderInsteadOfAFile_SaysSo(string option)
    {
        using var folder = new JobFolder();
        string line = AssertCannotRead(option.Length == 0 ? ["plan", folder.Path] : ["plan", option, folder.Path], folder.Path);
        Assert.Contains("folder", line, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("job\0.json")]
    [InlineData("no/such/folder/job.json")]
    public void Run_NameThatNoFileHas_SaysSo(string name) => AssertCannotRead(["plan", name], name);

    [Fact]
    public void Run_NameOfGreatLength_SaysThatItCannotBeRead() => AssertCannotRead(["plan", new string('x', 10_000)], "xxx");

    [Fact]
    public void Run_Hyphen_ReadsStandardInput()
    {
        ProgramRun piped = ProgramRun.With(File.ReadAllText(Demo.At(Demo.Plain)), 120, "plan", "-");
        Assert.Equal(ProgramRun.Of("plan", Demo.At(Demo.Plain)), piped);
    }

    [Fact]
    public void Run_NothingOnStandardInput_IsAnEmptyFile()
    {
        ProgramRun run = ProgramRun.With("", 120, "plan", "-");
        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.StartsWith("$: ", Assert.Single(run.ErrorLines), StringComparison.Ordinal);
    }

    private static string AssertCannotRead(string[] args, string name)
    {
        ProgramRun run = ProgramRun.Of(args);
        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Output));
        string line = Assert.Single(run.ErrorLines);
        Assert.StartsWith(name, line, StringComparison.Ordinal);
        Assert.Contains("cannot be read", line, StringComparison.Ordinal);
        return line;
    }
}
