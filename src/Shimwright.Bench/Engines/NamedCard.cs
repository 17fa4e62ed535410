using System.Text.Json.Nodes;
using Shimwright.Jobs.Cards;

namespace Shimwright.Bench.Engines;

/// <summary>A card under an engine's name: engines that share a card differ in it.</summary>
public static class NamedCard
{
    /// <summary>Puts a name on a card.</summary>
    /// <param name="card">The card as JSON.</param>
    /// <param name="name">The name.</param>
    /// <returns>The card under that name, or what is wrong with it.</returns>
    /// <exception cref="ArgumentNullException">There is no card.</exception>
    public static ParsedCard Of(string card, string name)
    {
        ArgumentNullException.ThrowIfNull(card);
        var json = (JsonObject)JsonNode.Parse(card)!;
        json["name"] = name;
        return EngineCard.Read(json);
    }

    /// <summary>Puts a name on a card that is to be kept.</summary>
    /// <param name="card">The card as JSON.</param>
    /// <param name="name">The name.</param>
    /// <returns>The card under that name.</returns>
    /// <exception cref="ArgumentException">The name is none that a card may have.</exception>
    public static EngineCard Kept(string card, string name)
    {
        ParsedCard reading = Of(card, name);
        return reading.Card ?? throw new ArgumentException($"The card cannot be kept: {string.Join("; ", reading.Problems)}", nameof(name));
    }
}
