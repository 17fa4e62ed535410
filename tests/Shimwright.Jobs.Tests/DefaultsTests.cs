using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

/// <summary>A job that leaves out what it may is the job in which every default is written out.</summary>
public class DefaultsTests
{
    private const string UsualBlades = "[0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30, 0.35, 0.40]";

    /// <summary>Path, default, and another value that must change some answer.</summary>
    public static TheoryData<string, string, string> Defaults() => new()
    {
        { "$.engine.ratio", "1", "1.2" },
        { "$.check.temperatureC", "20", "45" },
        { "$.check.loss.shared", "0.04", "0.08" },
        { "$.check.loss.own", "0.02", "0.03" },
        { "$.check.blades", UsualBlades, "[0.22]" },
        { "$.check.readings[0].trials[0].leaves", "1", "6" },
        { "$.check.readings[1].u", "0.010", "0.02" },
        { "$.recheck.readings[0].u", "0.010", "0.02" },
        { "$.stock.drawer[0].count", "1", "0" },
        { "$.stock.buy[0].price", "0", "20" },
        { "$.costs.redo", "60", "40" },
        { "$.costs.access.cover", "0", "25" },
        { "$.costs.swap", "3", "9" },
        { "$.costs.minutesPerCurrency", "1", "3" },
        { "$.settings.feel.firm", "-0.025", "-0.03" },
        { "$.settings.feel.light", "-0.005", "-0.01" },
        { "$.settings.feel.loose", "0.017", "0.025" },
        { "$.settings.feel.spread", "0.006", "0.01" },
        { "$.settings.feel.slip", "0.02", "0.05" },
        { "$.settings.blade", "0.003", "0.01" },
        { "$.settings.seating", "0.004", "0.01" },
        { "$.settings.instruments.marked.repeat", "0.008", "0.02" },
        { "$.settings.instruments.marked.shared", "0", "0.02" },
        { "$.settings.instruments.calliper.repeat", "0.006", "0.02" },
        { "$.settings.instruments.calliper.shared", "0.010", "0.02" },
        { "$.settings.instruments.micrometer.repeat", "0.002", "0.02" },
        { "$.settings.instruments.micrometer.shared", "0.002", "0.02" },
        { "$.settings.keepFloor", "0.5", "0.999" },
        { "$.settings.fitFloor", "0.05", "0.9999" },
    };

    [Theory]
    [MemberData(nameof(Defaults))]
    public void Read_DefaultWrittenOut_ChangesNoAnswer(string path, string usual, string other)
    {
        string leftOut = Answers.All(WithKappaWhereNeeded(Bare(), path));
        Assert.Equal(leftOut, Answers.All(WithKappaWhereNeeded(Bare(), path).Set(path, usual)));
        Assert.NotEqual(leftOut, Answers.All(WithKappaWhereNeeded(Bare(), path).Set(path, other)));
    }

    [Fact]
    public void Read_EveryDefaultWrittenOut_ChangesNoAnswer()
    {
        JobDraft full = Bare();
        foreach (TheoryDataRow<string, string, string> row in Defaults())
        {
            full.Set(row.Data.Item1, row.Data.Item2);
        }

        full.Set("$.history", "[]").Set("$.costs.horizon", "0").Set("$.settings.risk", "0.10").Set("$.settings.serviceLevel", "0.90")
            .Set("$.recheck.temperatureC", "20").Set("$.check.readings[0].trials[1].leaves", "1");
        Assert.Equal(Answers.All(Bare()), Answers.All(full));
    }

    [Fact]
    public void Read_RecheckWithoutATemperature_HasThatOfTheCheck()
    {
        JobDraft warm = Bare().Set("$.engine.temperature.kappaMmPerC", "0.001").Set("$.check.temperatureC", "35");
        string leftOut = Answers.Verdict(warm);
        Assert.Equal(leftOut, Answers.Verdict(warm.Set("$.recheck.temperatureC", "35")));
        Assert.NotEqual(leftOut, Answers.Verdict(warm.Set("$.recheck.temperatureC", "20")));
    }

    [Fact]
    public void Read_EmptySections_AreAsGoodAsNone() => Assert.Equal(
        Answers.All(Bare()),
        Answers.All(Bare().Set("$.costs", """{"access": {}}""").Set("$.settings", """{"feel": {}, "instruments": {"marked": {}}}""").Set("$.engine.temperature", "{}").Set("$.check.loss", "{}")));

    [Fact]
    public void Read_LayoutAndWearWithoutTheirFreeMembers_HaveTheDefaults()
    {
        Job job = Reading.Takes(Bare().Set("$.engine.layout", """{"firingOrder": [1]}""").Set("$.engine.wear", """{"interval": 30}"""));
        Assert.Null(job.Layout!.FiringAngles);
        Assert.Empty(job.Layout.Marks);
        Assert.False(job.Layout.StopsAnywhere);
        Assert.Equal(20, job.Layout.RampDegrees);
        Assert.Equal((0.008, 0.006), (job.Wear!.LossPerInterval, job.Wear.Spread));
    }

    [Fact]
    public void Disturb_GoodValveThatHasToBeChanged_CostsFiveMinutesMoreUnlessStated()
    {
        // A floor that no estimate reaches makes the plan change a valve that is in band.
        JobDraft Good() => Bare().Set("$.check.readings[0]", """{"valve": "I1", "value": 0.15, "u": 0.005}""").Set("$.settings.keepFloor", "1");
        Assert.Equal(Answers.All(Good()), Answers.All(Good().Set("$.costs.disturb", "5")));
        Assert.NotEqual(Answers.All(Good()), Answers.All(Good().Set("$.costs.disturb", "40")));
    }

    [Fact]
    public void Read_EngineWithoutLayoutAndWear_HasNone()
    {
        Job job = Reading.Takes(Bare());
        Assert.Null(job.Layout);
        Assert.Null(job.Wear);
    }

    /// <summary>Temperature and κ only show together.</summary>
    private static JobDraft WithKappaWhereNeeded(JobDraft draft, string path) => path switch
    {
        "$.check.temperatureC" => draft.Set("$.engine.temperature.kappaMmPerC", "0.001"),
        _ => draft,
    };

    /// <summary>Three valves, one for each instrument, and nothing that may be left out except what the defaults are about.</summary>
    private static JobDraft Bare() => new(
        """
        {
          "format": "shimwright-job/1",
          "engine": {
            "name": "Bare", "valvetrain": "shim-over-bucket",
            "valves": [
              {"id": "I1", "cylinder": 1, "side": "intake", "access": "cover", "band": [0.12, 0.18]},
              {"id": "I2", "cylinder": 1, "side": "intake", "access": "cover", "band": [0.12, 0.18]},
              {"id": "E1", "cylinder": 1, "side": "exhaust", "access": "cover", "band": [0.20, 0.26]}
            ]
          },
          "check": {
            "clock": 5,
            "readings": [
              {"valve": "I1", "trials": [{"blade": 0.10, "feel": "light"}, {"blade": 0.13, "feel": "firm"}]},
              {"valve": "I2", "value": 0.09},
              {"valve": "E1", "trials": [{"blade": 0.20, "feel": "light"}]}
            ],
            "fitted": [
              {"valve": "I1", "thickness": 2.62, "by": "micrometer"},
              {"valve": "I2", "thickness": 2.72, "by": "calliper"},
              {"valve": "E1", "thickness": 2.80, "by": "marked"}
            ]
          },
          "recheck": {
            "changed": [
              {"valve": "I2", "from": {"thickness": 2.72, "by": "calliper"}, "to": {"thickness": 2.66, "by": "micrometer"}}
            ],
            "readings": [{"valve": "I2", "value": 0.14}]
          },
          "stock": {
            "drawer": [{"thickness": 2.66, "by": "micrometer"}],
            "buy": [{"from": 2.55, "to": 2.62, "step": 0.035}, {"from": 2.57, "to": 2.60, "step": 0.01, "price": 0.5}]
          }
        }
        """);
}
