using System.Text.Json.Nodes;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>A card while its form is read: it begins as it was kept, and each field puts in its own.</summary>
internal sealed class CardDraft(CardForm form, EngineCard before, LengthStyle lengths)
{
    public CardForm Form => form;

    public LengthStyle Lengths => lengths;

    /// <summary>The card.</summary>
    public JsonObject Card { get; } = (JsonObject)JsonNode.Parse(before.Json)!;

    /// <summary>What a job file has no place for.</summary>
    public CardDetails Details { get; set; } = new();

    /// <summary>What could not be read, under the names of the fields.</summary>
    public List<JobProblem> Problems { get; } = [];

    /// <summary>Puts a value at a path of the card, or takes away what is there, and with it an object that becomes empty.</summary>
    /// <param name="path">Members with points between them.</param>
    /// <param name="value">The value, or null.</param>
    public void Put(string path, JsonNode? value) => Put(Card, path, value);

    /// <summary>The same at a path of any object.</summary>
    public static void Put(JsonObject into, string path, JsonNode? value)
    {
        if (path.Split('.', 2) is [var outer, var inner])
        {
            JsonObject below = into[outer] as JsonObject ?? [];
            Put(below, inner, value);
            if (below.Count == 0)
            {
                into.Remove(outer);
            }
            else if (below.Parent is null)
            {
                into[outer] = below;
            }
        }
        else if (value is null)
        {
            into.Remove(path);
        }
        else
        {
            into[path] = value;
        }
    }
}
