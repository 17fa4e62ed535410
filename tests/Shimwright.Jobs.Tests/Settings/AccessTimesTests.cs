using System.Text.Json.Nodes;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Settings;

public class AccessTimesTests
{
    private static readonly BenchSettings Settings = new() { Lift = 35 };

    [Fact]
    public void Of_CamshaftsToLift_AreTheCardsOwnElseTheBenchs()
    {
        EngineCard card = CardOf("01-flood-pump.json");
        IReadOnlyDictionary<string, double> times = AccessTimes.Of(card, new Dictionary<string, double> { ["intake cam"] = 0 }, Settings);
        Assert.Equal(card.Engine.AccessGroups.Order(StringComparer.Ordinal), times.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(0, times["intake cam"]);
        Assert.Equal(35, times["exhaust cam"]);
    }

    [Fact]
    public void Of_Screws_TakeNoTimeUnlessTheCardSaysSo()
    {
        EngineCard card = CardOf("06-plant-engine-screws.json");
        string cover = card.Engine.AccessGroups[0];
        Assert.All(AccessTimes.Of(card, new Dictionary<string, double>(), Settings).Values, minutes => Assert.Equal(0, minutes));
        Assert.Equal(12, AccessTimes.Of(card, new Dictionary<string, double> { [cover] = 12 }, Settings)[cover]);
    }

    private static EngineCard CardOf(string demo) => EngineCard.Read((JsonObject)JsonNode.Parse(Demo.Text(demo))!["engine"]!).Card!;
}
