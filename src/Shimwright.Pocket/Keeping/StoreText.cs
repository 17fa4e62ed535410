using System.Text;
using Shimwright.Bench.Contents;

namespace Shimwright.Pocket.Keeping;

/// <summary>Lines on their way to and from the browser's database, in one text: neither separator can stand in a key or in JSON.</summary>
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

    public static IReadOnlyList<KeptLine> Read(string text) =>
        [.. text.Split(End, StringSplitOptions.RemoveEmptyEntries).Select(l => l.Split(Part)).Select(p => new KeptLine(p[0], p[1]))];
}
