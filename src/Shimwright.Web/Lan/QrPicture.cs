using System.Text;
using Shimwright.Pages.Labels;

namespace Shimwright.Web.Lan;

/// <summary>An address as a QR code (ISO/IEC 18004), for a terminal and for a page.</summary>
public static class QrPicture
{
    /// <summary>The outline of the dark squares as the path of an SVG, and the width of the whole in squares, the quiet zone of four around it included.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>Path and width.</returns>
    public static (string Path, int Width) Path(string text)
    {
        var code = QrCode.Of(text);
        return (code.Path(), code.Width);
    }

    /// <summary>The code in half blocks, two squares a character, light on dark as most terminals are.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>Lines.</returns>
    public static IEnumerable<string> Lines(string text)
    {
        var code = QrCode.Of(text);
        for (int y = 0; y < code.Width; y += 2)
        {
            StringBuilder line = new(code.Width);
            for (int x = 0; x < code.Width; x++)
            {
                bool isTop = !code.IsDark(x, y);
                bool isBottom = y + 1 >= code.Width || !code.IsDark(x, y + 1);
                line.Append((isTop, isBottom) switch { (true, true) => '\u2588', (true, false) => '\u2580', (false, true) => '\u2584', _ => ' ' });
            }

            yield return line.ToString();
        }
    }
}
