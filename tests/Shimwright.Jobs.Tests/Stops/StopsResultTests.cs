using System.Text.Json.Nodes;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Tests.Stops;

public class StopsResultTests
{
    [Fact]
    public void Write_Stops_HasTheMembersOfItsFormat()
    {
        JsonObject json = JsonNode.Parse(ResultJson.Write(StopsJob.Answer(StopsJob.Four()), indented: false))!.AsObject();
        Assert.Equal(["format", "stops", "rules", "cautions"], json.Select(m => m.Key));
        Assert.Equal("shimwright-stops/1", (string?)json["format"]);
        JsonObject stop = json["stops"]![1]!.AsObject();
        Assert.Equal(["crankDeg", "turnFromPrevious", "valves", "words", "cautions"], stop.Select(m => m.Key));
        Assert.Equal((360, 360), ((double)stop["crankDeg"]!, (double)stop["turnFromPrevious"]!));
        Assert.Equal("{\"valve\":\"E2\",\"slackDeg\":150}", stop["valves"]![0]!.ToJsonString());
        Assert.All(json["stops"]!.AsArray(), s => Assert.Contains("turn by hand only", (string?)s!["cautions"]![0]));
        Assert.Contains(json["cautions"]!.AsArray(), c => ((string?)c)!.Contains("manual", StringComparison.Ordinal));
    }

    // A third of a cycle is no decimal fraction: no trail of digits is shown.
    [Fact]
    public void Write_AnglesThatAreNoDecimals_AreRounded()
    {
        StopsResult answer = StopsJob.Answer(StopsJob.Four().Set("$.engine.layout.firingOrder", "[1, 3, 5, 6, 7, 4, 2]").Set("$.engine.layout.rampDeg", "0.1"));
        Assert.All(answer.Stops, s => Assert.Equal(Math.Round(s.CrankDeg, 6), s.CrankDeg));
        Assert.Contains(answer.Stops, s => s.CrankDeg != Math.Round(s.CrankDeg, 3));
    }
}
