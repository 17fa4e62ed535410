using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;
using Shimwright.Jobs.Results;
using Shimwright.Testing;
using Shimwright.Testing.Served;

namespace Shimwright.Cli.Tests.Schema;

/// <summary>The schemas of the answers against the answers themselves: what the program prints over every demo job, and what it would never print.</summary>
public sealed class AnswerSchemaTests : IDisposable
{
    private readonly JobFolder _folder = new();

    public static TheoryData<string> Names() => [.. AnswerSchema.All.Select(a => a.Name)];

    public static TheoryData<string> OfJobs() => ["estimate", "plan", "next", "verdict", "forecast", "stops"];

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        _folder.Dispose();
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Schema_OfAnAnswer_IsTheOneInDocs(string name)
    {
        // With SHIMWRIGHT_APPROVE=1 it is written anew.
        string kept = Path.Combine(Repository.Root, "docs", "answers", $"{name}.schema.json");
        ProgramRun run = ProgramRun.Of("schema", "--answer", name);
        Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
        if (Environment.GetEnvironmentVariable("SHIMWRIGHT_APPROVE") == "1")
        {
            File.WriteAllText(kept, run.Output);
        }

        Assert.Equal(File.ReadAllText(kept), run.Output);
        using JsonDocument schema = JsonDocument.Parse(run.Output);
        Assert.True(MetaSchemas.Draft202012.Evaluate(schema.RootElement).IsValid);
    }

    [Fact]
    public void Schemas_InDocs_AreThoseThatThereAre() => Assert.Equal(
        AnswerSchema.All.Select(a => $"{a.Name}.schema.json").Order(StringComparer.Ordinal),
        Directory.GetFiles(Path.Combine(Repository.Root, "docs", "answers")).Select(Path.GetFileName).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Names))]
    public void Schema_EveryMember_IsDescribedAndEveryRecordClosed(string name)
    {
        foreach (JsonObject record in Objects(JsonNode.Parse(new AnswerCheck(name).Text)!).Where(o => o["properties"] is JsonObject))
        {
            Assert.False((bool)record["additionalProperties"]!);
            Assert.All(record["properties"]!.AsObject(), m => Assert.False(string.IsNullOrEmpty((string?)m.Value!["description"]), $"{name}: {m.Key}"));
        }
    }

    [Theory]
    [InlineData("schema --answer plann")]
    [InlineData("schema --answer")]
    [InlineData("schema --answer plan --archive")]
    public void Schema_OfAnAnswerThatIsNone_IsAWrongCommandLine(string line)
    {
        ProgramRun run = ProgramRun.Of(line.Split(' '));
        Assert.Equal((ExitCode.BadCommandLine, ""), (run.Exit, run.Output));
        if (line.EndsWith('n'))
        {
            Assert.Equal($"shimwright: --answer: found \"plann\"; allowed are {string.Join(", ", AnswerSchema.All.Select(a => a.Name))}.", run.ErrorLines[0]);
        }
    }

    [Long]
    [Theory]
    [MemberData(nameof(OfJobs))]
    public void Answers_OverEveryDemoJob_AreAsTheSchemaSays(string command)
    {
        AnswerCheck schema = new(command), badLine = new("bad-line");
        int answered = 0;
        foreach (string file in Demo.Files)
        {
            string[][] asked = [[], .. command is "plan" or "next" ? [["--second"]] : Array.Empty<string[]>()];
            foreach (string[] more in asked)
            {
                ProgramRun run = ProgramRun.Of([command, file, "--json", .. more]);
                string inOneLine = File.ReadAllText(file).ReplaceLineEndings(" ");
                JsonNode line = JsonNode.Parse(Assert.Single(ProgramRun.With(inOneLine, 120, [command, "--batch", "-", .. more]).OutputLines))!;
                bool isAnswer = run.Exit is ExitCode.Done or ExitCode.Stranded;
                Assert.True((isAnswer ? schema : badLine).Allows(line), $"{file}: {line}");
                Assert.False((isAnswer ? badLine : schema).Allows(line));
                if (isAnswer)
                {
                    Assert.True(schema.Allows(JsonNode.Parse(run.Output)!), file);
                    answered++;
                }
            }
        }

        Assert.InRange(answered, 1, Demo.Files.Count * 2);
    }

    [Long]
    [Theory]
    [InlineData("estimate", "10-by-depth.json")]
    [InlineData("plan", "01-flood-pump.json")]
    [InlineData("plan", "06-plant-engine-screws.json")]
    [InlineData("plan", "07-stranded-valve.json")]
    [InlineData("next", "02-worn-four.json")]
    [InlineData("verdict", "01-flood-pump.json")]
    [InlineData("forecast", "09-third-check.json")]
    [InlineData("stops", "02-worn-four.json")]
    public void Mutants_OfAnAnswer_AreRefused(string command, string demo)
    {
        JsonNode answer = JsonNode.Parse(ProgramRun.Of(command, Demo.At(demo), "--json").Output)!;
        AnswerCheck schema = new(command);
        Assert.True(schema.Allows(answer));
        Assert.Empty(schema.Missed(answer));
    }

    [Theory]
    [InlineData("timing", "timing --teeth 40 --offset 4.2 --radius 30 --pins 14 --pins-right 15 --intake 15 45 --exhaust 50 12 --clearance-change 0.05 --ramp-speed 0.01")]
    [InlineData("timing", "timing --teeth 40")]
    [InlineData("calibration", "calibrate DEMO/feel-trials.csv")]
    public void Answers_WithoutAJob_AreAsTheSchemaSays_AndTheirMutantsAreNot(string name, string line)
    {
        ProgramRun run = ProgramRun.Of([.. line.Replace("DEMO", Demo.At(""), StringComparison.Ordinal).Split(' '), "--json"]);
        JsonNode answer = JsonNode.Parse(run.Output)!;
        AnswerCheck schema = new(name);
        Assert.True(schema.Allows(answer), run.Output);
        Assert.Empty(schema.Missed(answer));
    }

    [Fact]
    public void BadLine_Mutants_AreRefused()
    {
        AnswerCheck schema = new("bad-line");
        JsonNode answer = JsonNode.Parse(Assert.Single(ProgramRun.With("{\n", 120, "plan", "--batch", "-").OutputLines))!;
        Assert.True(schema.Allows(answer));
        Assert.Empty(schema.Missed(answer));
    }

    [Fact]
    public async Task Answers_OfTheCommandsOnABench_AreAsTheSchemaSays_AndTheirMutantsAreNot()
    {
        string bench = await BenchAsync();
        foreach ((string name, string[] args) in new (string, string[])[]
        {
            ("copy", ["backup", At("c.db"), "--db", bench]),
            ("copy", ["export", At("c.zip"), "--db", bench]),
            ("copy", ["import", At("c.zip"), "--db", At("n.db")]),
            ("copy", ["restore", At("c.db"), "--db", bench]),
            ("check", ["check", "--db", bench]),
        })
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            ProgramRun run = ProgramRun.Of([.. args, "--json"]);
            Assert.Equal((ExitCode.Done, ""), (run.Exit, run.Error));
            JsonNode answer = JsonNode.Parse(run.Output)!;
            AnswerCheck schema = new(name);
            Assert.True(schema.Allows(answer), run.Output);
            Assert.Empty(schema.Missed(answer));
        }
    }

    private static IEnumerable<JsonObject> Objects(JsonNode node) => node switch
    {
        JsonObject of => of.Select(m => m.Value).OfType<JsonNode>().SelectMany(Objects).Prepend(of),
        JsonArray list => list.OfType<JsonNode>().SelectMany(Objects),
        _ => [],
    };

    private string At(string name) => Path.Combine(_folder.Path, name);

    private Task<string> BenchAsync() => BenchFile.MakeAsync(At("bench.db"));
}
