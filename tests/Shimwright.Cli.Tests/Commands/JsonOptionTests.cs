using System.Text.Json;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class JsonOptionTests
{
    [Theory]
    [InlineData("estimate", "shimwright-estimate/1")]
    [InlineData("plan", "shimwright-plan/1")]
    [InlineData("verdict", "shimwright-verdict/1")]
    [InlineData("forecast", "shimwright-forecast/1")]
    public void Json_PrintsOneDocumentAndNothingElse(string command, string format)
    {
        ProgramRun run = ProgramRun.Of(command, Demo.At(Demo.WithRecheck), "--json");
        Assert.Equal("", run.Error);
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Equal(format, document.RootElement.GetProperty("format").GetString());
        Assert.EndsWith("}\n", run.Output.ReplaceLineEndings("\n"), StringComparison.Ordinal);
    }

    [Fact]
    public void Json_IsInMillimetresWhateverTheUnitOfTables() => Assert.Equal(
        ProgramRun.Of("plan", Demo.At(Demo.WithRecheck), "--json"),
        ProgramRun.Of("plan", Demo.At(Demo.WithRecheck), "--json", "--unit", "thou"));

    [Fact]
    public void Json_WithoutStrandedValve_AndWith_DifferInTheExitCodeOnly()
    {
        ProgramRun run = ProgramRun.Of("plan", Demo.At(Demo.Stranded), "--json");
        Assert.Equal(ExitCode.Stranded, run.Exit);
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Equal("I1", document.RootElement.GetProperty("stranded")[0].GetProperty("valve").GetString());
    }

    [Fact]
    public void Json_KeepsAccentsAndQuotesOfNames()
    {
        using var folder = new JobFolder();
        string file = folder.Write("job.json", JobFolder.Line("Einlaß \\\"1\\\" <ä>"));
        ProgramRun run = ProgramRun.Of("plan", file, "--json");
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Equal("Einlaß \"1\" <ä>", document.RootElement.GetProperty("valves")[0].GetProperty("valve").GetString());
    }
}
