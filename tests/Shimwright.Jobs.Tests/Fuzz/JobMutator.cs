using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Shimwright.Jobs.Tests.Fuzz;

/// <summary>
/// Spoils job files at random, from a fixed seed: members go, come twice or change places, numbers and words become
/// others, and the bytes themselves are cut, flipped and filled up.
/// </summary>
internal sealed partial class JobMutator(int seed)
{
    private static readonly string[] Numbers =
    [
        "0", "-0.0", "1", "-1", "0.001", "0.005", "0.01", "0.1", "0.2", "0.24", "0.3", "0.5", "0.9999", "2", "3", "5", "10", "11", "64", "65",
        "150", "262", "2000", "10000", "10001", "100000", "10000000", "2147483647", "2147483648", "-2147483649", "9007199254740993",
        "1e-300", "5e-324", "1e-12", "1e300", "1.7976931348623157e308", "1e999", "-1e999", "0.1e1", "1E+2", "00", "-", "NaN", "0x10",
    ];

    private static readonly string[] Words =
    [
        "", " ", "I1", "E1", "I9", "no", "firm", "light", "loose", "marked", "calliper", "micrometer", "intake", "exhaust", "screw",
        "graded-bucket", "finger-follower", "marks", "km", "intake cam", "shimwright-job/1", "\\ud800", "\\udc00x", "\\u0000", "\\n", "'", "[bold]",
        "0.005 in", "5 thou", "127 µm", "2.6 mm", "68 °F", "68 F", "0 K", "1.5 h", "20 min", "NaN mm", "Infinity mm", "-Infinity °C", "1e400 in",
        "1e308 h", "∞", "5 kg", "mm", "5", "1/2 in", "5 mm 3 in", "--5 mm", "１ mm", "0.13mm", "\\u2028",
    ];

    private readonly Random _random = new(seed);

    public byte[] Spoil(string json) => _random.Next(10) switch
    {
        0 => Utf8(Restructure(json, 1)),
        1 => Utf8(Restructure(Revalue(json, 4), 1)),
        2 => Utf8(Shuffle(json)),
        3 => Corrupt(Utf8(json)),
        4 => Utf8(Replace(Revalue(json, 2), 3)),
        5 or 6 => Utf8(Replace(json, 1)),
        _ => Utf8(Revalue(json, 1 + _random.Next(12))),
    };

    /// <summary>Takes away, doubles, swaps or misplaces whole values.</summary>
    private string Restructure(string json, int times)
    {
        JsonNode root = JsonNode.Parse(json)!;
        for (int i = 0; i < times; i++)
        {
            JsonNode[] all = [.. Below(root)];
            if (all.Length == 0)
            {
                break;
            }

            JsonNode node = Any(all);
            JsonNode other = Any(all).DeepClone();
            switch (_random.Next(5))
            {
                case 0 when node.Parent is JsonObject members:
                    members.Remove(node.GetPropertyName());
                    break;
                case 0 or 1 when node.Parent is JsonArray list:
                    list.RemoveAt(node.GetElementIndex());
                    break;
                case 2 when node.Parent is JsonArray list:
                    list.Insert(_random.Next(list.Count + 1), node.DeepClone());
                    break;
                case 2 or 3 when node.Parent is JsonObject members:
                    members[Any(["surplus", "valve", "u", "pitch", "turns", "history", "by", node.GetPropertyName() + "s"])] = node.DeepClone();
                    break;
                default:
                    node.ReplaceWith(other);
                    break;
            }
        }

        return root.ToJsonString();
    }

    /// <summary>Makes numbers somewhat other numbers, and words other words of the same file.</summary>
    private string Revalue(string json, int times)
    {
        string[] tokens = Tokens(json);
        int[] values = Values(tokens);
        string[] words = [.. values.Select(v => tokens[v]).Where(t => t[0] == '"')];
        for (int i = 0; i < times && values.Length > 0; i++)
        {
            int at = Any(values);
            tokens[at] = tokens[at][0] != '"' ? Scaled(tokens[at]) : _random.Next(3) == 0 ? Any(words) : tokens[at];
        }

        return string.Concat(tokens);
    }

    /// <summary>Makes numbers and words such as no job file should have, or only just.</summary>
    private string Replace(string json, int times)
    {
        string[] tokens = Tokens(json);
        int[] values = Values(tokens);
        for (int i = 0; i < times && values.Length > 0; i++)
        {
            bool becomesWord = _random.Next(3) == 0;
            int at = Any(values);
            tokens[at] = becomesWord ? $"\"{Any(Words)}\"" : Any(Numbers);
        }

        return string.Concat(tokens);
    }

    /// <summary>Takes away, doubles or swaps tokens, whatever becomes of the syntax.</summary>
    private string Shuffle(string json)
    {
        List<string> tokens = [.. Tokens(json)];
        int at = _random.Next(tokens.Count);
        int other = _random.Next(tokens.Count);
        switch (_random.Next(4))
        {
            case 0:
                tokens.RemoveAt(at);
                break;
            case 1:
                tokens.Insert(at, tokens[at]);
                break;
            case 2:
                (tokens[at], tokens[other]) = (tokens[other], tokens[at]);
                break;
            default:
                tokens.InsertRange(at, tokens.GetRange(other, Math.Min(tokens.Count - other, _random.Next(40))));
                break;
        }

        return string.Concat(tokens);
    }

    private byte[] Corrupt(byte[] bytes)
    {
        int at = _random.Next(bytes.Length);
        switch (_random.Next(3))
        {
            case 0:
                return bytes[..at];
            case 1:
                bytes[at] ^= (byte)(1 << _random.Next(8));
                return bytes;
            default:
                byte[] noise = new byte[_random.Next(1, 9)];
                _random.NextBytes(noise);
                return [.. bytes[..at], .. noise, .. bytes[at..]];
        }
    }

    /// <summary>A number near this one, whole where this one is.</summary>
    private string Scaled(string number)
    {
        double value = double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture);
        bool isWhole = !number.Contains('.', StringComparison.Ordinal);
        double other = isWhole ? value + Any([0, 0, 1, 2]) : value * Any([0.5, 0.9, 0.97, 0.99, 1.01, 1.03, 1.1, 1.5]);
        return other.ToString("R", CultureInfo.InvariantCulture);
    }

    private static IEnumerable<JsonNode> Below(JsonNode node)
    {
        IEnumerable<JsonNode?> children = node switch
        {
            JsonObject members => members.Select(m => m.Value),
            JsonArray items => items,
            _ => [],
        };
        return children.OfType<JsonNode>().SelectMany(c => Below(c).Prepend(c));
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    /// <summary>The places of numbers and words that are no member's name.</summary>
    private static int[] Values(string[] tokens) =>
    [
        .. tokens.Index()
            .Where(t => char.IsAsciiDigit(t.Item[0]) || t.Item[0] is '-' or '"')
            .Where(t => t.Index + 1 == tokens.Length || tokens[t.Index + 1] != ":")
            .Select(t => t.Index),
    ];

    private static string[] Tokens(string json) => [.. Token().Matches(json).Select(m => m.Value)];

    private T Any<T>(IReadOnlyList<T> of) => of[_random.Next(of.Count)];

    [GeneratedRegex("""
        "(?:[^"\\]|\\.)*"|[-+.\w]+|\s+|.
        """, RegexOptions.Singleline)]
    private static partial Regex Token();
}
