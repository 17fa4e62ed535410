using System.Text;
using Shimwright.Bench.Contents;

namespace Shimwright.Pocket.Keeping;

/// <summary>Lists on their way between the program and its scripts, in one text: neither separator can stand in a key, in JSON or in a form.</summary>
internal static class StoreText
{
    private const char Part = '\u001f', End = '\u001e';

    public static string Write(IEnumerable<KeptLine> lines)
    {
        StringBuilder text = new();
        foreach (KeptLine line in lines)
        {
            text.Append(line.Key).Append(Part).Append(line.Line is null ? 'd' : line.IsQuiet ? 'q' : 'p').Append(Part).Append(line.Line).Append(End);
        }

        return text.ToString();
    }

    /// <summary>Reads lines; of a row that was taken away an empty one is left.</summary>
    public static IReadOnlyList<KeptLine> Read(string text) => [.. Pairs(text).Select(p => new KeptLine(p.Key, p.Value.Length == 0 && KeptLines.IsRow(p.Key) ? null : p.Value))];

    /// <summary>Names with their values.</summary>
    public static IEnumerable<KeyValuePair<string, string>> Pairs(string text) =>
        text.Split(End, StringSplitOptions.RemoveEmptyEntries).Select(l => l.Split(Part)).Select(p => KeyValuePair.Create(p[0], p[1]));
}
