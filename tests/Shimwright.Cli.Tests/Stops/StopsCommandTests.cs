using System.Text.Json;
using System.Text.Json.Nodes;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Stops;

public class StopsCommandTests
{
    private const string Four = "02-worn-four.json";
    private const string WithoutLayout = "07-stranded-valve.json";

    [Fact]
    public void Stops_DemoFour_PrintsStopsRulesAndCautions()
    {
        ProgramRun run = ProgramRun.Of("stops", Demo.At(Four));
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        Assert.Equal("Crank stops for The shuttle van's four", run.OutputLines[0]);
        Assert.Contains(run.OutputLines, l => l.Contains("  1      0       start at cylinder 1 on compression TDC", StringComparison.Ordinal));
        Assert.Contains(run.OutputLines, l => l.Contains("  2      360     turn 360 degrees in running direction", StringComparison.Ordinal));
        foreach (string heading in new[] { "Rules of thumb that hold for this layout", "Cautions" })
        {
            Assert.Contains(heading, run.OutputLines);
        }

        Assert.Contains("Slack is how far the crank may be off", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Stops_Json_IsOneDocumentWithEveryValveOnce()
    {
        ProgramRun run = ProgramRun.Of("stops", Demo.At(Four), "--json");
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        using JsonDocument answer = JsonDocument.Parse(run.Output);
        Assert.Equal("shimwright-stops/1", answer.RootElement.GetProperty("format").GetString());
        string[] valves = [.. answer.RootElement.GetProperty("stops").EnumerateArray()
            .SelectMany(s => s.GetProperty("valves").EnumerateArray()).Select(v => v.GetProperty("valve").GetString()!)];
        Assert.Equal(16, valves.Distinct().Count());
        Assert.Equal(16, valves.Length);
    }

    [Fact]
    public void Stops_StandardInput_IsTheSameAsAFile() => Assert.Equal(
        ProgramRun.Of("stops", Demo.At(Four)),
        ProgramRun.With(File.ReadAllText(Demo.At(Four)), 120, "stops", "-"));

    [Fact]
    public void Stops_Batch_AnswersTheGoodLinesAndNamesTheFaultsOfTheOthers()
    {
        string good = OneLine(Four, _ => { });
        string bad = OneLine(WithoutLayout, _ => { });
        ProgramRun run = ProgramRun.With($"{good}\n{bad}\n{good}\n", 120, "stops", "--batch", "-");
        Assert.Equal((ExitCode.BadInput, 3), (run.Exit, run.OutputLines.Length));
        Assert.Equal(run.OutputLines[0], run.OutputLines[2]);
        Assert.StartsWith("{\"format\":\"shimwright-stops/1\"", run.OutputLines[0], StringComparison.Ordinal);
        Assert.Equal("{\"line\":2,\"errors\":[\"$.engine.layout: missing; the crank stops need the firing order and the cam events\"]}", run.OutputLines[1]);
    }

    public static TheoryData<string, Action<JsonObject>> Faults { get; } = new()
    {
        { "$.engine.layout: ", engine => engine.Remove("layout") },
        { "$.engine.layout.firingOrder: cylinder 4 of I7, I8, E7, E8 ", engine => engine["layout"]!["firingOrder"] = new JsonArray(1, 3, 2) },
        { "$.engine.layout.firingOrder: cylinder 3 stands there 2 times", engine => engine["layout"]!["firingOrder"] = new JsonArray(1, 3, 4, 2, 3) },
        { "$.engine.layout.firingOrder: found 2.5", engine => engine["layout"]!["firingOrder"] = new JsonArray(1, 3, 4, 2.5) },
        { "$.engine.layout.firingAngles: found 170 after 180", engine => engine["layout"]!["firingAngles"] = new JsonArray(0, 180, 170, 540) },
        { "$.engine.layout.exhaust: missing", engine => engine["layout"]!.AsObject().Remove("exhaust") },
        { "$.engine.layout.intake: ", engine => (engine["layout"]!["rampDeg"], engine["layout"]!["intake"]) = (100, new JsonObject { ["opensBtdc"] = 180, ["closesAbdc"] = 180 }) },
        { "$.engine.layout.marks: ", engine => engine["layout"]!["rampDeg"] = 175 },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Stops_BadLayout_IsOneLineAndExitCodeOne(string line, Action<JsonObject> spoil)
    {
        ProgramRun run = ProgramRun.With(OneLine(Four, spoil), 120, "stops", "-");
        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Output));
        Assert.StartsWith(line, Assert.Single(run.ErrorLines), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("stops")]
    [InlineData("stops JOB JOB")]
    [InlineData("stops JOB --anywhere")]
    public void Stops_WrongCommandLine_IsExitCodeTwo(string args)
    {
        ProgramRun run = ProgramRun.Of([.. args.Split(' ').Select(a => a == "JOB" ? Demo.At(Four) : a)]);
        Assert.Equal((ExitCode.BadCommandLine, ""), (run.Exit, run.Output));
        Assert.All(run.ErrorLines, l => Assert.StartsWith("shimwright: ", l, StringComparison.Ordinal));
    }

    private static string OneLine(string file, Action<JsonObject> change)
    {
        JsonObject job = JsonNode.Parse(File.ReadAllText(Demo.At(file)))!.AsObject();
        change(job["engine"]!.AsObject());
        return job.ToJsonString();
    }
}
