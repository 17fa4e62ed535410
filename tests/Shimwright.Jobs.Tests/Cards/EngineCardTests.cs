using System.Text.Json.Nodes;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Cards;

public class EngineCardTests
{
    [Fact]
    public void Read_TheEngineOfEveryDemoJob_GivesTheEngineOfTheJob()
    {
        Assert.NotEmpty(Demo.Files);
        foreach (string file in Demo.Files)
        {
            Job job = Reading.Takes(Demo.Draft(file), JobPurpose.Draft);
            EngineCard card = Takes(Demo.Draft(file).At("$.engine").ToJsonString());
            Assert.Equal(job.Engine.Name, card.Engine.Name);
            Assert.Equal(job.Engine.Valvetrain, card.Engine.Valvetrain);
            Assert.Equal(job.Engine.Valves.Select(v => (v.Id, v.Cylinder, v.Side, v.Access, v.Band.Low, v.Band.High)),
                card.Engine.Valves.Select(v => (v.Id, v.Cylinder, v.Side, v.Access, v.Band.Low, v.Band.High)));
            Assert.Equal(job.Wear, card.Wear);
        }
    }

    [Fact]
    public void Read_ItsOwnJson_GivesTheSameJson()
    {
        EngineCard card = Takes(Card().ToJsonString());
        Assert.Equal(card.Json, Takes(card.Json).Json);
    }

    [Fact]
    public void Json_OfACardOverSeveralLinesWithAMark_IsOneLineThatCanBeRead()
    {
        EngineCard card = Takes('\uFEFF' + Demo.Draft(Demo.Files[0]).At("$.engine").ToJsonString(new() { WriteIndented = true }));
        Assert.DoesNotContain('\n', card.Json);
        Assert.Equal('{', card.Json[0]);
        Assert.Equal(card.Engine.Name, Takes(card.Json).Engine.Name);
    }

    [Fact]
    public void Read_SeveralThingsWrong_NamesAllOfThemFromTheCardOn()
    {
        JsonObject card = Card();
        card["name"] = " ";
        card["ratio"] = 0;
        card["valves"]![0]!["band"] = new JsonArray(0.3, 0.2);
        card["colour"] = "red";
        ParsedCard reading = EngineCard.Read(card);
        Assert.Null(reading.Card);
        Assert.Equal(["$.name", "$.ratio", "$.valves[0].band", "$.colour"], reading.Problems.Select(p => p.Path));
    }

    [Fact]
    public void Read_NoJson_SaysWhere()
    {
        ParsedCard reading = EngineCard.Read("{\"name\": \"x\",");
        Assert.Null(reading.Card);
        JobProblem problem = Assert.Single(reading.Problems);
        Assert.Contains("line 1", problem.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("3")]
    [InlineData("")]
    public void Read_NoObject_IsRefused(string json) => Assert.NotEmpty(EngineCard.Read(json).Problems);

    [Fact]
    public void StopsProblems_CardWithLayout_AreNoneAndTheLayoutIsThere()
    {
        EngineCard card = Takes(Card().ToJsonString());
        Assert.Empty(card.StopsProblems);
        Assert.Equal(card.Engine.Valves.Select(v => v.Id), card.ToLayout().Valves.Select(v => v.Id));
    }

    [Fact]
    public void StopsProblems_CardWithoutLayout_SayWhatIsMissing()
    {
        JsonObject json = Card();
        json.Remove("layout");
        EngineCard card = Takes(json.ToJsonString());
        Assert.Null(card.Layout);
        Assert.NotEmpty(card.StopsProblems);
    }

    [Fact]
    public void Read_ScrewWithoutPitch_IsRefused()
    {
        JsonObject json = (JsonObject)Sample.Screws().At("$.engine").DeepClone();
        Assert.Equal(Adjuster.Screw, Takes(json.ToJsonString()).Engine.Valvetrain.Adjuster);
        json.Remove("pitch");
        Assert.Equal("$.pitch", Assert.Single(EngineCard.Read(json).Problems).Path);
    }

    private static JsonObject Card() => (JsonObject)Sample.Shims().At("$.engine").DeepClone();

    private static EngineCard Takes(string json)
    {
        ParsedCard reading = EngineCard.Read(json);
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        return reading.Card!;
    }
}
