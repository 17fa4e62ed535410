using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Schema;

/// <summary>The schema and the reader draw every limit of a number at the same place.</summary>
public class SchemaLimitTests
{
    private static readonly string[] OfScrews = ["$.engine.pitch", "$.recheck.changed[0].turns"];

    private static readonly string[] OfThePast =
    [
        "$.history[0].clock", "$.history[0].readings[0].value", "$.history[0].fitted[0].thickness",
        "$.history[0].changed[0].from.thickness", "$.history[0].changed[0].to.thickness", "$.rounds[0].clock", "$.rounds[0].changed[0].to.thickness",
    ];

    private static readonly string[] OfDryFits =
    [
        "$.recheck.dryFits[0].changed[0].from.thickness", "$.recheck.dryFits[0].changed[0].to.thickness", "$.recheck.dryFits[0].readings[0].value",
        "$.recheck.dryFits[0].readings[0].u", "$.recheck.dryFits[0].readings[0].trials[0].blade", "$.recheck.dryFits[0].readings[0].trials[0].leaves",
    ];

    private static readonly string[] OfDryScrews = ["$.recheck.dryFits[0].changed[0].turns"];

    private static readonly string[] OfLevers = ["$.engine.leverRatio"];

    private static readonly string[] OfSides = ["$.engine.temperature.kappaMmPerC.intake", "$.engine.temperature.kappaMmPerC.exhaust"];

    private static readonly string[] OfDepths =
        [.. Sample.Depths().Paths().Except(Sample.Shims().Paths()).Where(p => Sample.Depths().At(p).GetValueKind() == JsonValueKind.Number)];

    private static readonly string[] Probed =
    [
        .. Sample.Shims().Paths().Where(p => Sample.Shims().At(p).GetValueKind() == JsonValueKind.Number),
        .. OfScrews,
        .. OfThePast,
        .. OfDryFits,
        .. OfDryScrews,
        .. OfLevers,
        .. OfSides,
        .. OfDepths,
    ];

    public static TheoryData<string> Numbers() => [.. Probed];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Schema_NumberAtAndBeyondItsLimits_IsTreatedAsTheReaderTreatsIt(string path)
    {
        JsonObject limits = JobSchema.NumberOf(JobSchema.At(For(path), path))!;
        bool isWhole = limits["type"]!.GetValue<string>() == "integer";
        bool leastIsLeftOut = limits["exclusiveMinimum"] is not null;
        double least = (limits["minimum"] ?? limits["exclusiveMinimum"])!.GetValue<double>();
        double greatest = limits["maximum"]!.GetValue<double>();
        double step = isWhole ? 1 : 1e-6 * Math.Max(1, Math.Abs(greatest));
        double small = isWhole ? 1 : 1e-7;

        Assert.Equal(!leastIsLeftOut, BothAllow(path, least, limits));
        Assert.True(BothAllow(path, least + small, limits));
        Assert.True(BothAllow(path, greatest, limits));
        Assert.True(BothAllow(path, greatest - step, limits));
        Assert.False(BothAllow(path, least - small, limits));
        Assert.False(BothAllow(path, greatest + step, limits));
    }

    [Theory]
    [InlineData("2.0")]
    [InlineData("1e0")]
    public void Schema_WholeNumberWrittenOtherwise_IsTreatedAsTheReaderTreatsIt(string number)
    {
        JobDraft draft = Sample.Shims().Set("$.stock.drawer[0].count", number);
        Assert.Equal(JobSchema.Allows(draft), JobFile.Read(draft.Bytes, JobPurpose.Estimate).Problems.Count == 0);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" ")]
    [InlineData("\\t")]
    [InlineData("n")]
    public void Schema_Name_IsTreatedAsTheReaderTreatsIt(string name)
    {
        JobDraft draft = Sample.Shims().Set("$.engine.name", $"\"{name}\"");
        Assert.Equal(JobSchema.Allows(draft), JobFile.Read(draft.Bytes, JobPurpose.Estimate).Problems.Count == 0);
    }

    [Theory]
    [InlineData("n", 200)]
    [InlineData("n", 201)]
    [InlineData("🔧", 100)]
    [InlineData("🔧", 150)]
    public void Schema_LongName_IsTreatedAsTheReaderTreatsIt(string character, int times)
    {
        JobDraft draft = Sample.Shims().Set("$.engine.name", $"\"{string.Concat(Enumerable.Repeat(character, times))}\"");
        Assert.Equal(JobSchema.Allows(draft), JobFile.Read(draft.Bytes, JobPurpose.Estimate).Problems.Count == 0);
    }

    [Fact]
    public void Schema_EveryNumber_IsProbedHere()
    {
        string[] probed = [.. Probed.Select(Names)];
        Assert.All(NumbersIn(JobSchema.Root, "$"), path => Assert.Contains(path, probed));
    }

    /// <summary>Whether both allow the number; fails where they differ, or where the reader's words name other limits.</summary>
    private static bool BothAllow(string path, double value, JsonObject limits)
    {
        string number = value.ToString("R", CultureInfo.InvariantCulture);
        JobDraft draft = For(path).Set(path, number);
        bool isRefused = JobFile.Read(draft.Bytes, JobPurpose.Estimate).Problems
            .Any(p => p.Path == path && p.Allowed.StartsWith(Words(limits), StringComparison.Ordinal));
        bool isAllowed = JobSchema.Allows(draft);
        Assert.True(isAllowed != isRefused, $"{path} = {number}: the schema {(isAllowed ? "allows" : "refuses")} it and the reader does not agree");
        return isAllowed;
    }

    private static string Words(JsonObject limits)
    {
        string greatest = Text(limits["maximum"]!);
        return limits switch
        {
            _ when limits["type"]!.GetValue<string>() == "integer" => $"allowed is a whole number from {Text(limits["minimum"]!)} to {greatest}",
            _ when limits["exclusiveMinimum"] is { } least => $"allowed is above {Text(least)} up to {greatest}",
            _ => $"allowed is {Text(limits["minimum"]!)} to {greatest}",
        };
    }

    private static string Text(JsonNode number) => number.GetValue<double>().ToString("0.#########", CultureInfo.InvariantCulture);

    private static JobDraft For(string path) =>
        OfScrews.Contains(path) ? Sample.Screws()
        : OfThePast.Contains(path) ? Sample.Shims().Append("$.history", Sample.PastCheck).Append("$.rounds", Sample.PastCheck)
        : OfDryFits.Contains(path) ? Sample.Shims().Set("$.recheck.dryFits", $"[{Sample.DryFit}]")
        : OfDryScrews.Contains(path) ? Sample.Screws().Set("$.recheck.dryFits", """[{"access": "cover", "changed": [{"valve": "I1", "turns": 0.1}], "readings": []}]""")
        : OfLevers.Contains(path) ? Sample.Shims().Remove("$.engine.ratio").Set("$.engine.valvetrain", "\"finger-follower\"").Set(path, "1.4")
        : OfSides.Contains(path) ? Sample.Shims().Set("$.engine.temperature.kappaMmPerC", """{"intake": 0, "exhaust": 0}""")
        : OfDepths.Contains(path) ? Sample.Depths()
        : Sample.Shims();

    /// <summary>A path without the places in its lists and without the free names, to compare with the schema's.</summary>
    private static string Names(string path) =>
        Regex.Replace(path, @"\[\d+\]", "[]").Replace("['intake cam']", "[*]", StringComparison.Ordinal);

    private static IEnumerable<string> NumbersIn(JsonObject schema, string path)
    {
        if (JobSchema.NumberOf(schema) is not null)
        {
            return path.StartsWith("$.history", StringComparison.Ordinal) || path.StartsWith("$.rounds", StringComparison.Ordinal) ? [] : [path];
        }

        IEnumerable<JsonObject> variants = schema["anyOf"]?.AsArray().Select(a => a!.AsObject()) ?? [schema];
        return variants.SelectMany(v => Children(v, path)).Distinct();
    }

    private static IEnumerable<string> Children(JsonObject schema, string path) =>
    [
        .. (schema["properties"]?.AsObject() ?? []).SelectMany(p => NumbersIn(p.Value!.AsObject(), $"{path}.{p.Key}")),
        .. schema["items"] is JsonObject items && !path.EndsWith("buy", StringComparison.Ordinal) ? NumbersIn(items, path + "[]") : [],
        .. schema["additionalProperties"] is JsonObject free ? NumbersIn(free, path + "[*]") : [],
    ];
}
