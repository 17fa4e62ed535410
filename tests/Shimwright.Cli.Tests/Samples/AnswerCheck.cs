using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace Shimwright.Cli.Tests.Samples;

/// <summary>The schema of an answer as the program prints it, read by a validator that knows nothing of the program.</summary>
internal sealed class AnswerCheck
{
    private readonly JsonSchema _schema;
    private readonly string _answer;

    public AnswerCheck(string answer)
    {
        _answer = answer;
        Text = ProgramRun.Of("schema", "--answer", answer).Output;
        _schema = JsonSchema.FromText(Text);
    }

    public string Text { get; }

    public bool Allows(JsonNode answer)
    {
        using JsonDocument document = JsonDocument.Parse(answer.ToJsonString());
        return _schema.Evaluate(document.RootElement).IsValid;
    }

    /// <summary>Where the schema lets a mutant of an allowed answer pass: a member taken away, one too many, a value of another type, a word that is none, a number that cannot be.</summary>
    public IEnumerable<string> Missed(JsonNode answer)
    {
        foreach (string path in Paths(answer, "$").ToArray())
        {
            foreach ((string what, Action<JsonNode> change) in Mutants(answer, path))
            {
                JsonNode mutant = answer.DeepClone();
                change(At(mutant, path));
                if (Allows(mutant))
                {
                    yield return $"{path}: {what}";
                }
            }
        }
    }

    private IEnumerable<(string What, Action<JsonNode> Change)> Mutants(JsonNode answer, string path)
    {
        JsonNode node = At(answer, path);
        if (node is JsonObject members)
        {
            yield return ("one too many", n => n["surplus"] = 1);
            foreach (string name in members.Select(m => m.Key).Where(n => !IsLeftOut(n)))
            {
                yield return ($"{name} taken away", n => n.AsObject().Remove(name));
            }
        }

        if (node.Parent is not null)
        {
            JsonNode other = node.GetValueKind() switch
            {
                JsonValueKind.Number => "7",
                JsonValueKind.String => 7,
                JsonValueKind.True or JsonValueKind.False => "true",
                JsonValueKind.Array => new JsonObject(),
                _ => new JsonArray(),
            };
            yield return ("another type", n => n.ReplaceWith(other.DeepClone()));
            if (path.Split('.')[^1] is "inBand" or "chance" or "chanceAll" or "chanceOutAtInterval" or "risk" or "evidence")
            {
                yield return ("more than certain", n => n.ReplaceWith(JsonValue.Create(1.001)));
            }

            if (path.Split('.')[^1] is "inBand" or "chance" or "chanceAll" or "sd" or "sdLossPerInterval" or "minutes" or "work" or "toCome" or "saves" or "takes")
            {
                yield return ("below nothing", n => n.ReplaceWith(JsonValue.Create(-0.001)));
            }

            if (path.Split('.')[^1] is "format" or "action" or "status" or "source" or "by" or "do" or "feel" or "side")
            {
                yield return ("another word", n => n.ReplaceWith(JsonValue.Create($"{node}x")));
            }
        }
    }

    /// <summary>Members that stand in an answer only where there is something to say.</summary>
    private bool IsLeftOut(string name) => name is "depths" or "marked" || (name == "cautions" && _answer == "next");

    private static IEnumerable<string> Paths(JsonNode node, string path)
    {
        yield return path;
        IEnumerable<(string, JsonNode?)> inside = node switch
        {
            JsonObject members => members.Select(m => ($"{path}.{m.Key}", m.Value)),
            JsonArray items => items.Take(2).Select((item, i) => ($"{path}[{i}]", item)),
            _ => [],
        };
        foreach ((string at, JsonNode? of) in inside)
        {
            foreach (string deeper in of is null ? [] : Paths(of, at))
            {
                yield return deeper;
            }
        }
    }

    private static JsonNode At(JsonNode root, string path) => path.Split('.', '[').Skip(1).Aggregate(
        root, (node, step) => step.EndsWith(']') ? node[int.Parse(step[..^1], System.Globalization.CultureInfo.InvariantCulture)]! : node[step]!);
}
