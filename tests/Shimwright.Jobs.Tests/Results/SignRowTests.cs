using System.Globalization;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

/// <summary>What a job file with one thing wrong makes the forecast say. The engine loses 0.02 mm an interval of 30 h, as its card has it.</summary>
public class SignRowTests
{
    private const double Interval = 30;
    private static readonly string[] Names = ["I1", "I2", "E1", "E2"];
    private static readonly double[] Start = [0.16, 0.16, 0.23, 0.23];
    private static readonly double[] AsUsual = [0, 0, 0, 0];

    [Fact]
    public void Of_NothingWrong_IsNothing() => Assert.Empty(Signs(Losing(AsUsual)));

    [Fact]
    public void Of_BothIntakesLoseFast_NamesThemAndTheAirCleaner()
    {
        SignRow sign = Says(Signs(Losing([0.07, 0.07, 0, 0])), "intake valves (I1, I2)");
        Assert.Contains("air cleaner", sign.LookAt, StringComparison.Ordinal);
        Assert.Contains("boot", sign.LookAt, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_OneValveLosesFast_NamesItAndItsSeat()
    {
        SignRow sign = Says(Signs(Losing([0, 0, 0, 0.09])), "E2: loses clearance far faster than the valves beside it");
        Assert.Contains("seat, guide and stem", sign.LookAt, StringComparison.Ordinal);
        Assert.Contains("leak-down", sign.LookAt, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_AllValvesLoseFast_LooksAtWhatTheyShare() =>
        Assert.Contains("all valves share", Says(Signs(Losing([0.06, 0.06, 0.06, 0.06])), "All valves lose").LookAt, StringComparison.Ordinal);

    [Fact]
    public void Of_AValveThatGains_LooksAtCamAndShim() =>
        Assert.Contains("cam lobe", Says(Signs(Losing([0, 0, -0.07, 0])), "E1: gains").LookAt, StringComparison.Ordinal);

    [Fact]
    public void Of_AJumpBetweenTwoChecks_SaysToFeelAgainFirst() =>
        Assert.StartsWith("Feel it again, cold", Says(Signs(Losing(AsUsual).Append("$.history", Check(60, [0.12, 0.12, 0.10, 0.19]))
            .Set("$.check", Check(90, [0.10, 0.10, 0.0, 0.17]))), "E1: the clearance has jumped").LookAt, StringComparison.Ordinal);

    [Fact]
    public void Of_AWarmCheckOfAllValves_SaysToLetItCool() =>
        Assert.Contains("Let the engine cool", Says(Signs(Losing(AsUsual).Set("$.check", Check(60, [0.04, 0.04, 0.11, 0.11])).Set("$.check.temperatureC", "60")),
            "temperature differs from the last check").LookAt, StringComparison.Ordinal);

    [Fact]
    public void Of_ChangedValveThatIsElsewhere_LooksForTheWrongShim()
    {
        JobDraft job = Losing(AsUsual);
        job.Set("$.history[1].changed", """[{"valve": "I1", "from": {"thickness": 2.6, "by": "micrometer"}, "to": {"thickness": 2.55, "by": "micrometer"}}]""");
        Assert.Contains("wrong shim", Says(Signs(job), "I1: changed at the last check").LookAt, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_ThinnestShimNearlyReached_IsAHeadJob()
    {
        JobDraft job = Losing([0.04, 0, 0, 0]).Set("$.check.fitted", """[{"valve": "I1", "thickness": 1.22, "by": "micrometer"}]""")
            .Set("$.stock", """{"buy": {"from": 1.20, "to": 3.50, "step": 0.05, "price": 8.0}}""");
        SignRow sign = Says(Signs(job), "I1: the thinnest shim");
        Assert.Contains("not shims", sign.LookAt, StringComparison.Ordinal);
        Assert.InRange(sign.Evidence, 0.01, 1);
    }

    [Fact]
    public void Of_StrongerFault_HasSmallerEvidence() =>
        Assert.True(Says(Signs(Losing([0, 0, 0, 0.12])), "E2: loses").Evidence < Says(Signs(Losing([0, 0, 0, 0.09])), "E2: loses").Evidence);

    /// <summary>The sign that says this; its evidence is a tail probability that a chance engine seldom reaches.</summary>
    private static SignRow Says(IReadOnlyList<SignRow> signs, string words)
    {
        SignRow sign = Assert.Single(signs, s => s.Sign.Contains(words, StringComparison.Ordinal));
        if (!words.Contains("thinnest", StringComparison.Ordinal))
        {
            Assert.InRange(sign.Evidence, 0, 0.0025);
        }

        return sign;
    }

    private static IReadOnlyList<SignRow> Signs(JobDraft job) => ForecastResult.Of(Reading.Takes(job, JobPurpose.Forecast)).Signs;

    /// <summary>Three checks an interval apart, measured to 0.005 mm; each valve loses 0.02 mm an interval and what is said on top.</summary>
    private static JobDraft Losing(double[] more)
    {
        string[] checks = [.. Enumerable.Range(0, 3).Select(k => Check(k * Interval, [.. Start.Select((s, v) => s - (k * (0.02 + more[v])))]))];
        string valves = string.Join(",", Names.Select((n, v) =>
            $$"""{"id": "{{n}}", "cylinder": 1, "side": "{{(v < 2 ? "intake" : "exhaust")}}", "access": "cams", "band": [{{(v < 2 ? "0.10, 0.17" : "0.17, 0.24")}}]}"""));
        return new($$"""
            {"format": "shimwright-job/1",
             "engine": {"name": "Loan saw", "valvetrain": "shim-under-bucket", "valves": [{{valves}}],
                        "wear": {"clock": "hours", "interval": 30, "lossPerInterval": 0.02, "spread": 0.005} },
             "history": [{{checks[0]}}, {{checks[1]}}], "check": {{checks[2]}} }
            """);
    }

    private static string Check(double clock, double[] clearances) => new JsonObject
    {
        ["clock"] = clock,
        ["readings"] = new JsonArray([.. clearances.Select((c, v) => (JsonNode)new JsonObject
        {
            ["valve"] = Names[v],
            ["value"] = double.Parse(c.ToString("0.0000", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture),
            ["u"] = 0.005,
        })]),
    }.ToJsonString();
}
