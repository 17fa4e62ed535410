using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class WrongCommandLineTests
{
    private static readonly string[] Commands = ["estimate", "plan", "verdict", "schema", "demo", "serve", "ready"];

    public static TheoryData<string> Wrong() =>
    [
        "",
        "plann JOB",
        "--bogus",
        "plan",
        "estimate --json",
        "plan JOB JOB",
        "plan JOB --batch JOB",
        "plan JOB --bogus",
        "plan JOB --unit",
        "plan JOB --unit furlong",
        "plan JOB --unit 7",
        "plan JOB --unit mm,in",
        "plan --batch",
        "estimate --json --batch",
        "verdict JOB --json=perhaps",
        "schema JOB",
        "schema --unit mm",
        "demo JOB",
        "demo --unit 1",
        "demo --port x",
        "serve JOB",
        "serve --port -1",
        "serve --port 65536",
        "serve --db",
        "serve --container",
        "serve --telemetry",
        "serve --telemetry 127.0.0.1:4318",
        "ready JOB",
        "ready --port 0",
        "ready --port x",
    ];

    [Theory]
    [MemberData(nameof(Wrong))]
    public void Run_WrongCommandLine_SaysSoInLinesOfItsOwn(string args)
    {
        ProgramRun run = ProgramRun.Of(Split(args));
        Assert.Equal(ExitCode.BadCommandLine, run.Exit);
        Assert.Equal("", run.Output);
        Assert.All(run.ErrorLines, line => Assert.StartsWith("shimwright: ", line, StringComparison.Ordinal));
        string command = Commands.FirstOrDefault(c => args.Split(' ')[0] == c) is { } known ? $" {known}" : "";
        Assert.Equal($"shimwright: see 'shimwright{command} --help'", run.ErrorLines[^1]);
        Assert.InRange(run.ErrorLines.Length, 2, 5);
        Assert.DoesNotContain("LengthUnit", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("plan JOB --batch JOB", "not both")]
    [InlineData("plan", "plan needs a JOB, or --batch FILE")]
    [InlineData("plann", "plann")]
    [InlineData("plan JOB --bogus", "--bogus")]
    [InlineData("plan JOB --unit furlong", "furlong")]
    public void Run_WrongCommandLine_NamesWhatIsWrong(string args, string words) =>
        Assert.Contains(ProgramRun.Of(Split(args)).ErrorLines, line => line.Contains(words, StringComparison.Ordinal));

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    public void Run_ServeFromNowhere_SaysWhatToWrite(string db)
    {
        ProgramRun run = ProgramRun.Of("serve", "--db", db);
        Assert.Equal(ExitCode.BadCommandLine, run.Exit);
        Assert.Contains("leave --db out to use the default file", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("mm")]
    [InlineData("in")]
    [InlineData("thou")]
    public void Run_Unit_StandsInTheHeading(string unit) =>
        Assert.EndsWith($" ({unit}, at 20 degrees C)", ProgramRun.Of("plan", Demo.At(Demo.Plain), "--unit", unit).OutputLines[0], StringComparison.Ordinal);

    private static string[] Split(string args) =>
        [.. args.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(a => a == "JOB" ? Demo.At(Demo.Plain) : a)];
}
