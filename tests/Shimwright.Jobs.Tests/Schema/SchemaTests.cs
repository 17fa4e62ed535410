using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Schema;

public class SchemaTests
{
    private static readonly string[] Kinds = ["null", "true", "7.25", "\"x!\"", "[]", "{}"];

    public static TheoryData<string> Demos() => [.. Demo.Files];

    public static TheoryData<string> Everything() => [.. Sample.Shims().Paths()];

    [Fact]
    public void Schema_IsTheOneInDocs()
    {
        // Written by the command: shimwright schema > docs/job.schema.json
        string inDocs = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "docs", "job.schema.json"));
        Assert.Equal(inDocs, JobFile.Schema());
    }

    [Fact]
    public void Schema_IsASchemaOfDraft202012()
    {
        using JsonDocument schema = JsonDocument.Parse(JobFile.Schema());
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
        Assert.True(MetaSchemas.Draft202012.Evaluate(schema.RootElement).IsValid);
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Schema_DemoJob_IsValid(string demo) => Assert.True(JobSchema.Allows(Demo.Text(demo)));

    [Fact]
    public void Schema_Samples_AreValid()
    {
        Assert.True(JobSchema.Allows(Sample.Shims()));
        Assert.True(JobSchema.Allows(Sample.Screws()));
        Assert.True(JobSchema.Allows(Sample.Depths()));
        Assert.True(JobSchema.Allows(Sample.Shims().Append("$.history", Sample.PastCheck).Append("$.rounds", Sample.PastCheck)));
        Assert.True(JobSchema.Allows(Sample.Shims().Set("$.stock.buy", "[]")));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Schema_DemoJobWithAnUnknownMember_IsNotValid(string demo)
    {
        string[] objects = ["$", .. Demo.Draft(demo).Paths().Where(p => Demo.Draft(demo).At(p) is JsonObject).Except(["$.costs.access"])];
        Assert.All(objects, path => Assert.False(JobSchema.Allows(Demo.Draft(demo).Set(path + ".surplus", "1")), path));
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Schema_ValueOfAnotherType_IsNotValid(string path)
    {
        JsonValueKind right = Sample.Shims().At(path).GetValueKind();
        string[] taken = path == "$.stock.buy" ? ["[]"] : [];
        foreach (string wrong in Kinds.Except(taken).Where(k => (JsonNode.Parse(k)?.GetValueKind() ?? JsonValueKind.Null) != right))
        {
            Assert.False(JobSchema.Allows(Sample.Shims().Set(path, wrong)), $"{path} = {wrong}");
        }
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Schema_MemberLeftOut_IsMissedWhereTheReaderMissesIt(string path)
    {
        // What a change needs depends on the valve train, which the schema does not look at.
        if (path is "$.recheck.changed[0].from" or "$.recheck.changed[0].to")
        {
            Assert.True(JobSchema.Allows(Sample.Shims().Remove(path)));
            return;
        }

        JobDraft draft = Sample.Shims().Remove(path);
        bool isMissed = JobFile.Read(draft.Bytes, JobPurpose.Estimate).Problems
            .Any(p => p.Found == "missing" || p.Allowed.StartsWith("allowed are ", StringComparison.Ordinal));
        Assert.Equal(!isMissed, JobSchema.Allows(draft));
    }
}
