using System.Text.RegularExpressions;
using Shimwright.Pages.Labels;
using Shimwright.Web.Lan;

namespace Shimwright.Shop.Tests.Lan;

public partial class QrPictureTests
{
    private const string Address = "https://192.168.1.20:7340/enter?code=D2JXWRRG";

    /// <summary>Three finders and a quiet zone of four squares, by ISO/IEC 18004: a camera looks for these first.</summary>
    [Fact]
    public void Lines_AnAddress_HasTheFindersOfTheStandard()
    {
        string[] lines = [.. QrPicture.Lines(Address)];
        bool[][] dark = [.. lines.SelectMany(l => new[] { l.Select(c => c is ' ' or '\u2584').ToArray(), [.. l.Select(c => c is ' ' or '\u2580')] })];
        int width = lines[0].Length;
        string[] finder = ["1111111", "1000001", "1011101", "1011101", "1011101", "1000001", "1111111"];
        foreach ((int top, int left) in new[] { (4, 4), (4, width - 11), (width - 11, 4) })
        {
            Assert.Equal(finder, Enumerable.Range(0, 7).Select(y => new string([.. Enumerable.Range(0, 7).Select(x => dark[top + y][left + x] ? '1' : '0')])));
        }

        Assert.All(dark.Take(4), row => Assert.DoesNotContain(true, row));
    }

    [Fact]
    public void Path_OnAPage_DrawsWhatTheTerminalShows()
    {
        var code = QrCode.Of(Address);
        HashSet<(int X, int Y)> drawn = [];
        foreach (Match run in Run().Matches(code.Path()))
        {
            for (int n = 0; n < int.Parse(run.Groups[3].ValueSpan, System.Globalization.CultureInfo.InvariantCulture); n++)
            {
                Assert.True(drawn.Add((int.Parse(run.Groups[1].ValueSpan, System.Globalization.CultureInfo.InvariantCulture) + n, int.Parse(run.Groups[2].ValueSpan, System.Globalization.CultureInfo.InvariantCulture))));
            }
        }

        string[] lines = [.. QrPicture.Lines(Address)];
        Assert.Equal(code.Width, lines[0].Length);
        int shown = lines.Sum(l => l.Sum(c => c switch { ' ' => 2, '\u2588' => 0, _ => 1 }));
        Assert.Equal(drawn.Count, shown);
    }

    [GeneratedRegex(@"M(\d+) (\d+)h(\d+)v1h-\d+z")]
    private static partial Regex Run();
}
