using System.Globalization;
using System.Text.RegularExpressions;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Measures;

/// <summary>Shims at hand and sizes to buy as lines of text, the way they are quickest to type.</summary>
public static partial class StockText
{
    private const string DrawerExample = "2.55 x2 micrometer";
    private const string BuyExample = "1.20 to 3.50 step 0.05 at 8";

    /// <summary>The drawer, a line for each thickness and instrument.</summary>
    /// <param name="drawer">The shims.</param>
    /// <param name="lengths">How lengths are written.</param>
    /// <returns>The lines.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="drawer"/> or <paramref name="lengths"/> is null.</exception>
    public static string Drawer(IEnumerable<ShimsAtHand> drawer, LengthStyle lengths)
    {
        ArgumentNullException.ThrowIfNull(drawer);
        ArgumentNullException.ThrowIfNull(lengths);
        return string.Join('\n', drawer.Select(d => string.Create(CultureInfo.InvariantCulture, $"{lengths.Field(d.Thickness)} x{d.Count} {d.By}{(d.Marked is { } mark ? $", marked {lengths.Field(mark)}" : "")}")));
    }

    /// <summary>Reads the drawer.</summary>
    /// <param name="text">The lines; blank ones are passed over.</param>
    /// <param name="lengths">The unit of bare numbers.</param>
    /// <param name="problems">Gets what is wrong.</param>
    /// <returns>The shims of the lines that could be read.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="lengths"/> or <paramref name="problems"/> is null.</exception>
    public static IReadOnlyList<ShimsAtHand> ReadDrawer(string? text, LengthStyle lengths, ICollection<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        ArgumentNullException.ThrowIfNull(problems);
        List<ShimsAtHand> drawer = [];
        foreach ((string path, string line) in Lines(text, "shims at hand").TakeWhile(_ => !FirstProblems.AreEnough(problems)))
        {
            if (IsTooLong(path, line, problems))
            {
                continue;
            }

            if (DrawerLine().Match(line) is not { Success: true } match)
            {
                problems.Add(new(path, $"found \"{Shown(line)}\"", $"write the thickness, how many and how it was found, such as {DrawerExample}"));
                continue;
            }

            Group count = match.Groups["count"];
            if (!int.TryParse(count.Success ? count.ValueSpan : "1", NumberStyles.None, CultureInfo.InvariantCulture, out int many))
            {
                problems.Add(new(path, $"found {Shown(count.Value)} shims", "write how many there are, up to 10000"));
            }
            else if (lengths.Read(match.Groups["thickness"].Value, path).Note(problems) is { } thickness)
            {
                double? mark = match.Groups["mark"] is { Success: true } marked ? lengths.Read(marked.Value, path).Note(problems) : null;
                drawer.Add(new(thickness, match.Groups["by"] is { Success: true } by ? by.Value.ToLowerInvariant() : "marked", many) { Marked = mark });
            }
        }

        return drawer;
    }

    /// <summary>The sizes to buy, a line for each kit or range.</summary>
    /// <param name="buy">The ranges.</param>
    /// <param name="lengths">How lengths are written.</param>
    /// <returns>The lines.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="buy"/> or <paramref name="lengths"/> is null.</exception>
    public static string Buy(IEnumerable<SizesToBuy> buy, LengthStyle lengths)
    {
        ArgumentNullException.ThrowIfNull(buy);
        ArgumentNullException.ThrowIfNull(lengths);
        return string.Join('\n', buy.Select(b => string.Create(
            CultureInfo.InvariantCulture, $"{lengths.Field(b.From)} to {lengths.Field(b.To)} step {lengths.Field(b.Step)} at {b.Price:0.##}")));
    }

    /// <summary>Reads the sizes to buy.</summary>
    /// <param name="text">The lines; blank ones are passed over.</param>
    /// <param name="lengths">The unit of bare numbers.</param>
    /// <param name="problems">Gets what is wrong.</param>
    /// <returns>The ranges of the lines that could be read.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="lengths"/> or <paramref name="problems"/> is null.</exception>
    public static IReadOnlyList<SizesToBuy> ReadBuy(string? text, LengthStyle lengths, ICollection<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        ArgumentNullException.ThrowIfNull(problems);
        List<SizesToBuy> buy = [];
        foreach ((string path, string line) in Lines(text, "sizes to buy").TakeWhile(_ => !FirstProblems.AreEnough(problems)))
        {
            if (IsTooLong(path, line, problems))
            {
                continue;
            }

            if (BuyLine().Match(line) is not { Success: true } match)
            {
                problems.Add(new(path, $"found \"{Shown(line)}\"", $"write the first and the last size, the step and the price of one, such as {BuyExample}"));
                continue;
            }

            double? from = lengths.Read(match.Groups["from"].Value, path).Note(problems);
            double? to = lengths.Read(match.Groups["to"].Value, path).Note(problems);
            double? step = lengths.Read(match.Groups["step"].Value, path).Note(problems);
            Group priced = match.Groups["price"];
            double? price = priced.Success ? TypedNumber.Plain(priced.Value, path).Note(problems) : 0;
            if (from is { } f && to is { } t && step is { } s && price is { } p)
            {
                buy.Add(new(f, t, s, p));
            }
        }

        return buy;
    }

    private static IEnumerable<(string Path, string Line)> Lines(string? text, string what) => (text ?? "").Split('\n')
        .Select((line, i) => (string.Create(CultureInfo.InvariantCulture, $"{what}, line {i + 1}"), line.Trim()))
        .Where(l => l.Item2.Length > 0);

    private static bool IsTooLong(string path, string line, ICollection<JobProblem> problems)
    {
        if (line.Length <= Limits.LongestStockLine)
        {
            return false;
        }

        problems.Add(new(path, $"found \"{Shown(line)}\"", $"{Limits.StockLineRule}; write one size per line"));
        return true;
    }

    private static string Shown(string text) => JsonText.Shortened(text);

    [GeneratedRegex(@"^(?<thickness>.+?)(\s*[x\u00d7*]\s*(?<count>[0-9]+))?(\s+(?<by>marked|calliper|micrometer))?(\s*[,;]\s*marked\s+(?<mark>\S+))?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex DrawerLine();

    [GeneratedRegex(@"^(?<from>.+?)\s*(to|-|\u2013)\s*(?<to>.+?)\s+step\s+(?<step>.+?)(\s+at\s+(?<price>\S+))?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex BuyLine();
}
