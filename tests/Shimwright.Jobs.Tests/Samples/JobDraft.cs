using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Shimwright.Jobs.Tests.Samples;

/// <summary>A job file in which a test changes one thing, named by the JSON path that the reader would name.</summary>
internal sealed partial class JobDraft(string json)
{
    /// <summary>Degree signs and accents stay as they are, as a person would write them.</summary>
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private readonly JsonNode _root = JsonNode.Parse(json)!;

    public string Text => _root.ToJsonString(Plain);

    public byte[] Bytes => Encoding.UTF8.GetBytes(Text);

    /// <summary>Puts a value at a path; members on the way that are not there yet are made.</summary>
    public JobDraft Set(string path, string value)
    {
        MakeWayTo(path);
        (JsonNode parent, string? name, int index) = ParentOf(path);
        if (name is null)
        {
            parent.AsArray()[index] = JsonNode.Parse(value);
        }
        else
        {
            parent.AsObject()[name] = JsonNode.Parse(value);
        }

        return this;
    }

    /// <summary>Puts a value at the end of the list at a path.</summary>
    public JobDraft Append(string path, string value)
    {
        At(path).AsArray().Add(JsonNode.Parse(value));
        return this;
    }

    /// <summary>Takes a member or a list entry away; it must be there.</summary>
    public JobDraft Remove(string path)
    {
        (JsonNode parent, string? name, int index) = ParentOf(path);
        if (name is null)
        {
            parent.AsArray().RemoveAt(index);
        }
        else
        {
            Assert.True(parent.AsObject().Remove(name), $"{path} is not in the draft");
        }

        return this;
    }

    /// <summary>The draft's text with one piece of it replaced; the piece must stand there once.</summary>
    public string TextWith(string old, string replacement)
    {
        string text = Text;
        Assert.Equal(2, text.Split(old).Length);
        return text.Replace(old, replacement, StringComparison.Ordinal);
    }

    /// <summary>The value at a path.</summary>
    public JsonNode At(string path) => Walk(Steps(path));

    /// <summary>Every path in the draft except that of the root, parents before their children.</summary>
    public IEnumerable<string> Paths() => PathsBelow("$", _root);

    private static IEnumerable<string> PathsBelow(string path, JsonNode? node)
    {
        IEnumerable<(string Path, JsonNode? Node)> children = node switch
        {
            JsonObject members => members.Select(m => (path + Step(m.Key), m.Value)),
            JsonArray items => items.Index().Select(i => ($"{path}[{i.Index}]", i.Item)),
            _ => [],
        };
        return children.SelectMany(c => PathsBelow(c.Path, c.Node).Prepend(c.Path));
    }

    private static string Step(string name) => name.Contains(' ', StringComparison.Ordinal) ? $"['{name}']" : $".{name}";

    private static Match[] Steps(string path) => [.. PathStep().Matches(path).Cast<Match>()];

    private JsonNode Walk(IEnumerable<Match> steps) => steps.Aggregate(_root, Walk);

    private static JsonNode Walk(JsonNode node, Match step) =>
        step.Groups["index"] is { Success: true } index ? node[Number(index)]! : node[step.Groups["name"].Value]!;

    private void MakeWayTo(string path)
    {
        JsonNode node = _root;
        foreach (Match step in Steps(path)[..^1])
        {
            if (step.Groups["name"] is { Success: true } name && node[name.Value] is null)
            {
                node[name.Value] = new JsonObject();
            }

            node = Walk(node, step);
        }
    }

    private (JsonNode Parent, string? Name, int Index) ParentOf(string path)
    {
        Match[] steps = Steps(path);
        Group index = steps[^1].Groups["index"];
        JsonNode parent = Walk(steps[..^1]);
        return index.Success ? (parent, null, Number(index)) : (parent, steps[^1].Groups["name"].Value, -1);
    }

    private static int Number(Group index) => int.Parse(index.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\.(?<name>\w+)|\['(?<name>[^']*)'\]|\[(?<index>\d+)\]")]
    private static partial Regex PathStep();
}
