using System.Text.Json;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

public class ForecastResultTests
{
    [Fact]
    public void Write_JobWithAPast_HasTheShapeOfTheContract()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(WithPast()));
        JsonElement root = answer.RootElement;
        Shape.AssertMembers(root, "format", "checkBy", "risk", "valves", "signs");
        Shape.AssertTidy(root);
        Assert.Equal("shimwright-forecast/1", root.GetProperty("format").GetString());
        Assert.Equal(0.1, root.GetProperty("risk").GetDouble());
        foreach (JsonElement row in root.GetProperty("valves").EnumerateArray())
        {
            Shape.AssertMembers(row, "valve", "lossPerInterval", "sdLossPerInterval", "chanceOutAtInterval", "roomLeft", "recession");
            Shape.AssertChance(row.GetProperty("chanceOutAtInterval"));
            Shape.AssertMembers(row.GetProperty("roomLeft"), "mm", "clock");
            Shape.AssertMembers(row.GetProperty("recession"), "mm");
        }
    }

    [Fact]
    public void Write_CheckBy_LiesBetweenTheCheckAndAnIntervalLater()
    {
        Assert.Equal(118, CheckBy(WithPast()));
        Assert.Equal(148, CheckBy(InBand().Set("$.settings.risk", "0.999")));
        Assert.InRange(CheckBy(InBand()), 118.5, 147.5);
        Assert.True(CheckBy(InBand().Set("$.settings.risk", "0.3")) > CheckBy(InBand()));
    }

    [Fact]
    public void Write_RoomLeft_IsThicknessAboveTheThinnestThatCanBeHad()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(WithPast()));
        Assert.Equal(0.12, Valve(answer, 0).GetProperty("roomLeft").GetProperty("mm").GetDouble(), 1e-9);
        Assert.Equal(0.25, Valve(answer, 1).GetProperty("roomLeft").GetProperty("mm").GetDouble(), 1e-9);

        using JsonDocument unknown = JsonDocument.Parse(Answers.Forecast(WithPast().Remove("$.check.fitted")));
        Assert.Equal(JsonValueKind.Null, Valve(unknown, 0).GetProperty("roomLeft").ValueKind);
        using JsonDocument nothing = JsonDocument.Parse(Answers.Forecast(WithPast().Remove("$.stock")));
        Assert.Equal(JsonValueKind.Null, Valve(nothing, 0).GetProperty("roomLeft").ValueKind);
    }

    /// <summary>How long the room lasts is reckoned with the valve's own loss: with what its line says, as far as that is rounded.</summary>
    [Fact]
    public void Write_RoomLeft_LastsByTheLossOfItsOwnValve()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(WithPast()));
        double[] losses = [.. Enumerable.Range(0, 2).Select(v => Valve(answer, v).GetProperty("lossPerInterval").GetDouble())];
        Assert.True(Math.Abs(losses[0] - losses[1]) > 0.002, $"The valves lose alike: {losses[0]}, {losses[1]}");
        for (int v = 0; v < 2; v++)
        {
            JsonElement room = Valve(answer, v).GetProperty("roomLeft");
            double intervals = room.GetProperty("clock").GetDouble() / 30;
            Assert.Equal(losses[v], room.GetProperty("mm").GetDouble() / intervals, 0.0006);
        }
    }

    [Fact]
    public void Write_RoomOfAValveThatGains_LastsWithoutEnd()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(WithPast().Set("$.engine.wear.lossPerInterval", "-0.1").Set("$.engine.wear.spread", "0.001")));
        Assert.Equal(JsonValueKind.Null, Valve(answer, 0).GetProperty("roomLeft").GetProperty("clock").ValueKind);
    }

    [Fact]
    public void Write_ClosingGaps_GrowByWhatOpeningOnesLose()
    {
        using JsonDocument opening = JsonDocument.Parse(Answers.Forecast(Sample.Shims()));
        using JsonDocument closing = JsonDocument.Parse(Answers.Forecast(Sample.Shims().Set("$.engine.sense", "\"closing\"")));
        Assert.Equal(
            -Valve(opening, 0).GetProperty("lossPerInterval").GetDouble(), Valve(closing, 0).GetProperty("lossPerInterval").GetDouble(), 1e-9);
    }

    [Fact]
    public void Write_EngineWithoutAPast_HasNoRecession()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(Sample.Shims()));
        Assert.Equal(JsonValueKind.Null, Valve(answer, 0).GetProperty("recession").ValueKind);
        Assert.Equal(0.02, Valve(answer, 0).GetProperty("lossPerInterval").GetDouble(), 1e-9);
        Assert.Equal(0.02, Valve(answer, 0).GetProperty("sdLossPerInterval").GetDouble(), 1e-9);
    }

    [Fact]
    public void Write_Recession_IsShimsAndClearanceTogether()
    {
        // 2.65 at first and 2.62 now; the clearance was read as 0.11 then and stands at about 0.14 now.
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(WithPast()));
        Assert.Equal(0.03 + 0.11 - 0.14, Valve(answer, 0).GetProperty("recession").GetProperty("mm").GetDouble(), 0.012);

        // Without thicknesses the changes on record count.
        using JsonDocument changes = JsonDocument.Parse(Answers.Forecast(WithPast().Remove("$.history[0].fitted")));
        Assert.Equal(
            Valve(answer, 0).GetProperty("recession").GetProperty("mm").GetDouble(),
            Valve(changes, 0).GetProperty("recession").GetProperty("mm").GetDouble(), 1e-6);
    }

    [Fact]
    public void Write_CheckWithoutReadings_ForecastsFromThePast()
    {
        JobDraft draft = WithPast().Set("$.check.readings", "[]").Set("$.check.clock", "60");
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(draft));
        Assert.Equal(60, answer.RootElement.GetProperty("checkBy").GetDouble(), 1e-9);
        using JsonDocument later = JsonDocument.Parse(Answers.Forecast(draft.Set("$.history[0].readings[0].value", "0.12").Set("$.history[0].readings[1].value", "0.23")));
        Assert.InRange(later.RootElement.GetProperty("checkBy").GetDouble(), 60.5, 90);
    }

    [Fact]
    public void Write_EstimateOfAJobWithAPast_LeansOnIt()
    {
        using JsonDocument known = JsonDocument.Parse(Answers.Estimate(WithPast()));
        using JsonDocument unknown = JsonDocument.Parse(Answers.Estimate(Sample.Shims()));
        Assert.Equal(JsonValueKind.Null, known.RootElement.GetProperty("oneCause").ValueKind);
        Assert.NotEqual(
            unknown.RootElement.GetProperty("valves")[1].GetProperty("mean").GetDouble(),
            known.RootElement.GetProperty("valves")[1].GetProperty("mean").GetDouble(), 1e-4);
    }

    [Fact]
    public void Write_PlanWithAHorizon_HasSmallerChances()
    {
        using JsonDocument now = JsonDocument.Parse(Answers.Plan(InBand()));
        using JsonDocument lasting = JsonDocument.Parse(Answers.Plan(InBand().Set("$.costs.horizon", "30")));
        Assert.True(
            lasting.RootElement.GetProperty("chanceAll").GetDouble() < now.RootElement.GetProperty("chanceAll").GetDouble() - 0.01);
    }

    private static JobDraft WithPast() => Sample.Shims().Append("$.history", Sample.PastCheck);

    private static JobDraft InBand() => WithPast()
        .Set("$.check.readings", """[{"valve": "I1", "value": 0.14, "u": 0.005}, {"valve": "E1", "value": 0.217, "u": 0.005}]""");

    private static double CheckBy(JobDraft draft)
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Forecast(draft));
        return answer.RootElement.GetProperty("checkBy").GetDouble();
    }

    private static JsonElement Valve(JsonDocument answer, int v) => answer.RootElement.GetProperty("valves")[v];
}
