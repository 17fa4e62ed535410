using System.Text.Json.Nodes;
using Shimwright.Jobs.Cards;

namespace Shimwright.Web.Engines;

/// <summary>A card under another engine's name.</summary>
internal static class EngineCopy
{
    public static ParsedCard Of(EngineCard card, string? name)
    {
        var json = (JsonObject)JsonNode.Parse(card.Json)!;
        json["name"] = name?.Trim() ?? "";
        return EngineCard.Read(json);
    }
}
